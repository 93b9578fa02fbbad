#include "solver/process/second_block.hpp"

#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"

#include <cmath>

namespace flangewright::process {

namespace {

/// A node in the job's own section: distance past the flange's bend tangent, height.
Eigen::Vector2d in_section(const Workpiece& piece, int node) {
    const Eigen::Vector3d position = piece.state.positions.col(node);
    return {piece.job.blank.line.locate(position).distance, position.z()};
}

} // namespace

SecondSection second_section(const job::Job& job) {
    const double angle = findings::turned_angle(job);
    const double t = job.sheet.thickness;
    const Eigen::Vector2d along(std::cos(angle), -std::sin(angle));
    const Eigen::Vector2d outward(std::sin(angle), std::cos(angle));
    const Eigen::Vector2d mould_point(findings::mould_setback(job), t);
    const double to_tangent = job.blank.flange_depth - findings::lip_setback(job);
    const Eigen::Vector2d on_outside = mould_point + to_tangent * along;
    SecondSection section;
    section.side = job.return_bend->side;
    const bool is_under = section.side == job::LipSide::under_web;
    section.axes << along, is_under ? outward : Eigen::Vector2d(-outward);
    section.origin = is_under ? Eigen::Vector2d(on_outside - t * outward) : on_outside;
    return section;
}

std::shared_ptr<tooling::MovedSurface>
placed(const SecondSection& section, std::shared_ptr<const tooling::RigidSurface> shape) {
    return std::make_shared<tooling::MovedSurface>(std::move(shape), section.axes, section.origin);
}

Eigen::Vector2d in_second_section(const Workpiece& piece, const SecondSection& section, int node) {
    return section.at(in_section(piece, node));
}

double lip_angle(const Workpiece& piece, const SecondSection& section) {
    const double sign = section.side == job::LipSide::under_web ? 1 : -1;
    double sum = 0;
    for (const int node : piece.mesh.free_edge) {
        const Eigen::Vector3d director = piece.state.directors.col(node);
        const Eigen::Vector3d outward = piece.node_axes[static_cast<std::size_t>(node)].col(1);
        const Eigen::Vector2d in_plane(director.dot(outward), director.z());
        const Eigen::Vector2d turned = section.axes.transpose() * in_plane;
        sum += std::atan2(sign * turned[0], sign * turned[1]);
    }
    return sum / static_cast<double>(piece.mesh.free_edge.size());
}

std::vector<int> clamped_flange(const Workpiece& piece) {
    const job::Job& job = piece.job;
    const double bend = findings::bend_allowance(job);
    std::vector<int> nodes;
    for (std::size_t i = 0; i < piece.mesh.station_lines.size(); ++i) {
        const int last_of_bend = piece.mesh.bend_end[i];
        const Eigen::Vector2d bend_end = in_section(piece, last_of_bend);
        const double length =
            findings::straight_between_bends(job) - (piece.mesh.distance[last_of_bend] - bend);
        for (const int node : piece.mesh.station_lines[i]) {
            const bool is_past_bend = piece.mesh.distance[node] >= bend + job.sheet.thickness;
            if (is_past_bend && (in_section(piece, node) - bend_end).norm() <= length) {
                nodes.push_back(node);
            }
        }
    }
    return nodes;
}

} // namespace flangewright::process
