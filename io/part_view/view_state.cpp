#include "io/part_view/view_state.hpp"

#include "io/tables/cut_edge.hpp"
#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"
#include "io/units/angle.hpp"
#include "io/vtk/node_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::part_view {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr double on_line = 1e-9; // mm, as the fields have it

Eigen::VectorXd in_percent(const Eigen::VectorXd& log_strain) {
    return 100 * (log_strain.array().exp() - 1);
}

Eigen::VectorXd edge_stretch(const process::JobResult& result, std::size_t step, int n_nodes) {
    Eigen::VectorXd figures = Eigen::VectorXd::Constant(n_nodes, unknown);
    for (const tables::CutEdgeNode& each : tables::cut_edge(result, step).nodes) {
        figures(each.node) = tables::stretch_percent(each.strain);
    }
    return figures;
}

Eigen::VectorXd
web_gap(const job::Job& job, const grid::SheetMesh& mesh, const process::StepResult& step) {
    Eigen::VectorXd gap = vtk::block_gap(job, mesh, step);
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        gap(node) = mesh.distance(node) > on_line ? unknown : gap(node);
    }
    return gap;
}

/// Those fields that follow from strains and thickness alone.
void add_fields(ViewState& state, const job::Job& job, const shell::SheetFields& fields, int n) {
    const auto put = [&state, n](Field field, const Eigen::VectorXd& figures) {
        if (figures.size() == n) {
            state.figures[static_cast<std::size_t>(field)] = figures;
        }
    };
    put(Field::thinning, 100 * vtk::thinning(job, fields));
    put(Field::outer_stretch, in_percent(fields.major_outer_face));
    put(Field::mid_stretch, in_percent(fields.major_mid));
    put(Field::plastic_strain, 100 * fields.plastic_strain);
}

ViewState end_of(const job::Job& job, const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const grid::SheetMesh& mesh = process::mesh_of(result, index);
    ViewState state;
    state.name = fmt::format(
        "{} {}: {}",
        index + 1,
        process::name_of(step.kind),
        step.report.reason == process::StopReason::done ? tables::words_after(step.kind)
                                                        : std::string("not finished")
    );
    state.step = index;
    state.positions = &step.state.positions;
    add_fields(state, job, step.fields, mesh.n_nodes());
    const auto put = [&state](Field field, Eigen::VectorXd figures) {
        state.figures[static_cast<std::size_t>(field)] = std::move(figures);
    };
    put(Field::edge_stretch, edge_stretch(result, index, mesh.n_nodes()));
    if (auto share = vtk::share_used(job, result, index)) {
        put(Field::share_used, 100 * *share);
    }
    if (const auto moved = vtk::springback(result, index)) {
        put(Field::movement, moved->colwise().norm().transpose());
    }
    if (!job::ends_on_block(step.kind)) {
        put(Field::web_gap, web_gap(job, mesh, step));
    }
    return state;
}

bool is_whole(const process::JobResult& result, std::size_t step, const Eigen::Matrix3Xd& shape) {
    const int n = process::mesh_of(result, step).n_nodes();
    return n > 0 && shape.cols() == n;
}

/// Shapes on the way of a step, evenly picked, at most so many; its end is not among them.
std::vector<const process::Frame*>
on_the_way(const process::JobResult& result, std::size_t step, std::size_t n_most) {
    std::vector<const process::Frame*> all;
    for (const process::Frame& frame : result.history) {
        if (frame.step == static_cast<int>(step) && frame.share_done < 1 - 1e-9
            && is_whole(result, step, frame.positions)) {
            all.push_back(&frame);
        }
    }
    if (all.size() <= n_most) {
        return all;
    }
    std::vector<const process::Frame*> picked;
    for (std::size_t i = 0; i < n_most; ++i) {
        picked.push_back(all[i * all.size() / n_most]);
    }
    return picked;
}

ViewState frame_state(
    const job::Job& job,
    const process::JobResult& result,
    std::size_t step,
    const process::Frame& frame
) {
    const job::StepKind kind = result.steps[step].kind;
    const bool is_driven = kind == job::StepKind::bend_down || kind == job::StepKind::return_bend;
    ViewState state;
    state.name = fmt::format("{} {}: ", step + 1, process::name_of(kind))
        + (is_driven ? fmt::format("driven to {:.0f} deg", units::degrees(frame.drive_angle))
                     : fmt::format("{:.0f} % done", 100 * frame.share_done));
    state.step = step;
    state.positions = &frame.positions;
    add_fields(state, job, frame.fields, static_cast<int>(frame.positions.cols()));
    return state;
}

} // namespace

std::vector<ViewState>
view_states(const job::Job& job, const process::JobResult& result, std::size_t most_values) {
    std::vector<std::size_t> whole;
    std::size_t n_values = 0;
    std::size_t largest = 1; // values of one state
    const auto values_of = [](const Eigen::Matrix3Xd& shape) {
        return static_cast<std::size_t>(shape.cols()) * (3 + fields.size());
    };
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        if (is_whole(result, i, result.steps[i].state.positions)) {
            whole.push_back(i);
            n_values += values_of(result.steps[i].state.positions);
            largest = std::max(largest, values_of(result.steps[i].state.positions));
        }
    }
    constexpr std::size_t most_frames = 5; // of a step: enough to see it go
    const std::size_t room = n_values < most_values ? (most_values - n_values) / largest : 0;
    const std::size_t n_frames = whole.empty() ? 0 : std::min(most_frames, room / whole.size());
    std::vector<ViewState> states;
    for (const std::size_t step : whole) {
        for (const process::Frame* frame : on_the_way(result, step, n_frames)) {
            states.push_back(frame_state(job, result, step, *frame));
        }
        states.push_back(end_of(job, result, step));
    }
    return states;
}

} // namespace flangewright::part_view
