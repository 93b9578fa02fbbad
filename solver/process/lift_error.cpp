#include "solver/process/lift_error.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/findings/web_lift.hpp"
#include "solver/shell/recover.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::process {

namespace {

constexpr double web_ends = 1e-6; // mm of flat distance that still counts as the bend tangent

// Between the nodes of a section in a straight line, beyond them its last value.
double height_of(const WebSection& section, double distance) {
    const auto next = std::ranges::lower_bound(section.distance, distance);
    if (next == section.distance.begin()) {
        return section.height.front();
    }
    if (next == section.distance.end()) {
        return section.height.back();
    }
    const auto at = static_cast<std::size_t>(next - section.distance.begin());
    const double share =
        (distance - section.distance[at - 1]) / (section.distance[at] - section.distance[at - 1]);
    return (1 - share) * section.height[at - 1] + share * section.height[at];
}

} // namespace

WebSection web_section(const Workpiece& piece) {
    WebSection section;
    for (const int node : piece.mesh.station_lines.front()) {
        if (piece.mesh.distance[node] <= web_ends) {
            section.distance.push_back(std::min(piece.mesh.distance[node], 0.0));
            section.height.push_back(piece.state.positions(2, node));
        }
    }
    const double at_tangent = section.height.empty() ? 0 : section.height.back();
    for (double& height : section.height) {
        height -= at_tangent;
    }
    return section;
}

double lift_error(const Workpiece& part, const WebSection& as_run, const WebSection& finer) {
    if (as_run.distance.empty() || finer.distance.empty()) {
        return 0;
    }
    constexpr double second_order = 4.0 / 3.0;
    const shell::SheetFields fields = shell::recover_fields(part.model, part.state);
    const findings::TiltDirections tilts = findings::free_tilts(part.job.blank);
    Eigen::Matrix3Xd positions = part.state.positions;
    const findings::PartShape shape{positions, part.state.directors, fields.thickness};
    const double found = findings::set_on_block(part.mesh, shape, tilts).largest;
    double most = 0;
    for (const double share : {second_order, -second_order}) {
        for (int node = 0; node < part.mesh.n_nodes(); ++node) {
            const double distance = part.mesh.distance[node];
            if (distance <= web_ends) {
                const double turned = height_of(finer, distance) - height_of(as_run, distance);
                positions(2, node) = part.state.positions(2, node) + share * turned;
            }
        }
        const double lift = findings::set_on_block(part.mesh, shape, tilts).largest;
        most = std::max(most, std::abs(lift - found));
    }
    return most;
}

} // namespace flangewright::process
