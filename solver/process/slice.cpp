#include "solver/process/slice.hpp"

#include "solver/findings/grain_angle.hpp"

#include <cmath>
#include <optional>

namespace flangewright::process {

namespace {

// Where the edge strains most in these steps; nothing without any.
std::optional<double> governing_station(std::span<const StepResult> steps) {
    double strain = -1;
    std::optional<double> worst;
    for (const StepResult& step : steps) {
        if (std::abs(step.findings.edge_strain_most) > strain) {
            strain = std::abs(step.findings.edge_strain_most);
            worst = step.findings.edge_strain_station;
        }
    }
    return worst;
}

// One element's length of a line of several curvatures, where the edge strains most: of the two
// elements that meet there the one that curves more.
outline::Piece worst_element(const job::Job& job, const grid::SheetMesh& mesh, double worst) {
    const std::vector<int>& edge = mesh.free_edge;
    outline::Piece element;
    for (std::size_t i = 1; i < edge.size(); ++i) {
        const double begin = mesh.station(edge[i - 1]);
        const double end = mesh.station(edge[i]);
        const double curvature = job.blank.line.curvature(0.5 * (begin + end));
        const bool holds_worst = begin <= worst && worst <= end;
        if (holds_worst
            && (element.length == 0 || std::abs(curvature) > std::abs(element.curvature))) {
            element = {end - begin, curvature};
        }
    }
    return element;
}

} // namespace

job::Job
slice_of(const job::Job& job, const grid::SheetMesh& mesh, std::span<const StepResult> steps) {
    job::Job slice = job;
    const outline::BendLine& line = job.blank.line;
    const auto n_along = static_cast<double>(mesh.station_lines.size() - 1);
    const double governing = governing_station(steps).value_or(job.blank.middle_of_part());
    slice.sheet.rolling_direction = findings::grain_angle(job, governing);
    slice.blank.line = outline::BendLine::chain(
        {line.curve() == outline::Curve::mixed
             ? worst_element(job, mesh, governing)
             : outline::Piece{line.length() / n_along, line.tightest_curvature()}}
    );
    slice.blank.start = slice.blank.end = job::EndKind::continues;
    // Of what varies along the line the slice has the largest.
    slice.blank.flange_widths = {};
    slice.blank.openings = {};
    slice.block.wall_angles = {};
    // A slice knows no order along the line.
    slice.drive.order = job::DriveOrder::evenly;
    slice.drive.passes.clear();
    return slice;
}

} // namespace flangewright::process
