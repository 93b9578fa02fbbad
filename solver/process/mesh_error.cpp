#include "solver/process/mesh_error.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/lift_error.hpp"
#include "solver/process/release.hpp"
#include "solver/process/slice.hpp"
#include "solver/shell/recover.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::process {

namespace {

struct SliceFigures {
    double springback = 0;
    double flange_angle = 0;
    double edge_strain = 0;
    double thinning = 0;
    WebSection web; // as released
};

std::optional<SliceFigures> run_slice(
    const job::Job& slice, const Fineness& fineness, int n_threads, const std::stop_token& stop
) {
    Result<Workpiece> made = make_workpiece(slice, fineness, n_threads);
    if (!made) {
        return std::nullopt;
    }
    Workpiece& piece = *made;
    Monitor monitor;
    monitor.stop = stop;
    SliceFigures figures;
    double held_angle = 0;
    for (const job::StepKind kind : slice.steps) {
        const bool is_release = kind == job::StepKind::release;
        const StepReport report =
            is_release ? release(piece, {}, monitor) : bend_down(piece, {}, monitor, {});
        if (report.reason != StopReason::done) {
            return std::nullopt;
        }
        const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
        const findings::PartFindings now = findings::find_in_part(
            piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
        );
        figures.flange_angle = now.flange_angle.mean;
        if (is_release) {
            figures.springback = held_angle - now.flange_angle.mean;
            figures.web = web_section(piece);
        } else {
            held_angle = now.flange_angle.mean;
            figures.edge_strain = now.edge_strain_most;
            figures.thinning = now.thinning_most;
        }
    }
    return figures;
}

std::optional<MeshError> across_the_line(
    const Workpiece& piece, const job::Job& slice, const Fineness& fineness, const Monitor& monitor
) {
    const auto tell = [&monitor](double share_done) {
        monitor.report({.step = "error of the mesh", .share_done = share_done});
    };
    constexpr double share_of_first = 0.2; // of the time
    tell(0);
    Fineness own = fineness;
    constexpr double rounding = 1.0001;
    own.longest = rounding * slice.blank.line.length();
    own.largest_turn = rounding * std::max(fineness.largest_turn, slice.blank.line.sweep());
    const std::optional<SliceFigures> as_run = run_slice(slice, own, piece.n_threads, monitor.stop);
    if (!as_run) {
        return std::nullopt;
    }
    tell(share_of_first);
    const std::optional<SliceFigures> finer =
        run_slice(slice, twice_as_fine(own), piece.n_threads, monitor.stop);
    if (!finer) {
        return std::nullopt;
    }
    return MeshError{
        std::abs(as_run->springback - finer->springback),
        std::abs(as_run->flange_angle - finer->flange_angle),
        std::abs(as_run->edge_strain - finer->edge_strain),
        std::abs(as_run->thinning - finer->thinning),
        lift_error(piece, as_run->web, finer->web)};
}

// At the thinnest node, along the line and across it.
double kink_of_thickness(const Workpiece& piece, const Eigen::VectorXd& thickness) {
    const std::vector<std::vector<int>>& lines = piece.mesh.station_lines;
    std::size_t thinnest_line = 0;
    std::size_t thinnest = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        for (std::size_t j = 0; j < lines[i].size(); ++j) {
            if (thickness[lines[i][j]] < thickness[lines[thinnest_line][thinnest]]) {
                thinnest_line = i;
                thinnest = j;
            }
        }
    }
    std::vector<double> along;
    std::vector<double> across;
    std::size_t place = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        place = i == thinnest_line ? along.size() : place;
        // Lines that pass an opening have other nodes there.
        if (lines[i].size() == lines[thinnest_line].size()) {
            along.push_back(thickness[lines[i][thinnest]]);
        }
    }
    for (const int node : lines[thinnest_line]) {
        across.push_back(thickness[node]);
    }
    return std::max(half_kink_at(along, place), half_kink_at(across, thinnest));
}

double kink_of_edge_strain(const findings::PartFindings& held) {
    std::vector<double> along;
    std::size_t place = 0;
    for (const findings::StationFindings& station : held.stations) {
        along.push_back(station.edge_strain);
        if (std::abs(along.back()) > std::abs(along[place])) {
            place = along.size() - 1;
        }
    }
    return half_kink_at(along, place);
}

double kink_of_springback(const findings::PartFindings& released) {
    std::vector<double> along;
    for (const findings::StationFindings& station : released.stations) {
        along.push_back(station.springback.value_or(0));
    }
    double worst = 0;
    for (std::size_t place = 0; place < along.size(); ++place) {
        worst = std::max(worst, half_kink_at(along, place));
    }
    return worst;
}

} // namespace

Fineness twice_as_fine(const Fineness& fineness) {
    Fineness fine = fineness;
    fine.n_layers *= 2;
    fine.n_round_nose *= 2;
    fine.largest_turn *= 0.5;
    fine.growth = std::sqrt(fineness.growth);
    fine.n_along_most *= 2;
    fine.longest *= 0.5;
    return fine;
}

double half_kink_at(std::span<const double> series, std::size_t place) {
    if (series.size() < 3) {
        return 0;
    }
    const std::size_t middle = std::clamp<std::size_t>(place, 1, series.size() - 2);
    return 0.5 * std::abs(series[middle - 1] - 2 * series[middle] + series[middle + 1]);
}

std::optional<MeshError> estimate_mesh_error(
    const Workpiece& piece,
    const Fineness& fineness,
    std::span<const StepResult> steps,
    const Monitor& monitor
) {
    job::Job slice = slice_of(piece.job, piece.mesh, steps);
    // What follows the release moves the figures little, and their error less.
    slice.steps = job::up_to_release(slice.steps);
    std::optional<MeshError> error = across_the_line(piece, slice, fineness, monitor);
    if (!error) {
        return error;
    }
    if (steps.empty() || job::ends_on_block(steps.back().kind)) {
        error->web_lift.reset();
    }
    for (const StepResult& step : steps) {
        if (step.kind == job::StepKind::release) {
            error->springback = std::max(error->springback, kink_of_springback(step.findings));
        } else {
            error->edge_strain = std::max(error->edge_strain, kink_of_edge_strain(step.findings));
            const double kink =
                kink_of_thickness(piece, step.fields.thickness) / piece.job.sheet.thickness;
            // With a cut end the sheet is thinnest there, a place the slice does not have.
            error->thinning =
                piece.job.blank.has_free_end() ? kink : std::max(error->thinning, kink);
        }
    }
    return error;
}

} // namespace flangewright::process
