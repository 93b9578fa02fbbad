#include "solver/process/loose_part.hpp"

#include "mesh/base/check.hpp"
#include "mesh/grid/trimmed_mesh.hpp"
#include "solver/shell/annealing.hpp"
#include "solver/shell/recover.hpp"

#include <utility>

namespace flangewright::process {

namespace {

/// Groups of `size` items, the chosen ones in their order.
template <typename Item>
std::vector<Item>
chosen(const std::vector<Item>& items, const std::vector<int>& groups, std::size_t size) {
    std::vector<Item> kept;
    kept.reserve(groups.size() * size);
    for (const int group : groups) {
        const auto from = items.begin() + static_cast<std::ptrdiff_t>(size) * group;
        kept.insert(kept.end(), from, from + static_cast<std::ptrdiff_t>(size));
    }
    return kept;
}

shell::SheetState trimmed_state(const Workpiece& piece, const grid::TrimmedMesh& trimmed) {
    const auto n_layers = 4 * static_cast<std::size_t>(piece.model.section.n_layers());
    const std::size_t n_shifts = n_layers * piece.model.section.back_stresses.size();
    shell::SheetState state;
    state.positions = piece.state.positions(Eigen::all, trimmed.kept_nodes);
    state.directors = piece.state.directors(Eigen::all, trimmed.kept_nodes);
    state.points = chosen(piece.state.points, trimmed.kept_quads, n_layers);
    state.fibres = chosen(piece.state.fibres, trimmed.kept_quads, 4);
    state.back_stresses = chosen(piece.state.back_stresses, trimmed.kept_quads, n_shifts);
    return state;
}

} // namespace

job::Blank without_allowance(job::Blank blank) {
    blank.flange_width -= blank.trim_allowance;
    blank.flange_widths = blank.flange_widths.raised_by(-blank.trim_allowance);
    blank.trim_allowance = 0;
    return blank;
}

void cut_allowance(Workpiece& piece) {
    job::Blank& blank = piece.job.blank;
    if (blank.trim_allowance <= 0) {
        return;
    }
    blank = without_allowance(blank);
    const double first_station = piece.mesh.station[piece.mesh.start_end.front()];
    grid::TrimmedMesh trimmed = grid::trim_beyond(piece.mesh, blank.flange_width_at(first_station));
    piece.state = trimmed_state(piece, trimmed);
    if (piece.soft) {
        piece.soft->positions =
            Eigen::Matrix3Xd(piece.soft->positions(Eigen::all, trimmed.kept_nodes));
        piece.soft->across_outer_face =
            Eigen::VectorXd(piece.soft->across_outer_face(trimmed.kept_nodes));
        piece.soft->across_block_face =
            Eigen::VectorXd(piece.soft->across_block_face(trimmed.kept_nodes));
    }
    take_mesh(piece, std::move(trimmed.mesh));
    hold_present_shape(piece);
}

void soften(Workpiece& piece, const material::SheetMaterial& afterwards) {
    shell::wipe_stress(piece.model, piece.state, piece.n_threads);
    const material::SheetMaterial& sheet = piece.job.sheet.material = afterwards;
    shell::Section& section = piece.model.section;
    section.elasticity = {sheet.youngs_modulus, sheet.poisson_ratio};
    section.hardening = sheet.hardening;
    section.back_stresses = sheet.back_stresses;
    section.yield = sheet.yield;
    check(
        section.yield == nullptr || section.back_stresses.empty(),
        "a rolled sheet has no back stresses"
    );
    piece.state.back_stresses.assign(
        piece.state.points.size() * sheet.back_stresses.size(), material::SplitStress::Zero()
    );
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    piece.soft =
        SoftShape{piece.state.positions, fields.across_outer_face, fields.across_block_face};
    hold_present_shape(piece);
}

void prepare_step(Workpiece& piece, job::StepKind kind) {
    switch (kind) {
    case job::StepKind::bend_down:
    case job::StepKind::release:
    case job::StepKind::set_on_block:
        return;
    case job::StepKind::return_bend:
        piece.job.blank.has_lip = true;
        return;
    case job::StepKind::trim:
        return cut_allowance(piece);
    case job::StepKind::anneal:
        return soften(piece, piece.job.annealed);
    case job::StepKind::heat_treat:
        return soften(piece, piece.job.heat_treated);
    }
}

} // namespace flangewright::process
