#include "solver/findings/flange_angle.hpp"

#include "mesh/base/check.hpp"

#include <cmath>
#include <numbers>
#include <vector>

namespace flangewright::findings {

namespace {

constexpr double window_begin = 0.4; // share of the straight part's flat length
constexpr double window_end = 0.9;
constexpr int enough_nodes = 3;

std::vector<int>
nodes_in(const grid::SheetMesh& mesh, const std::vector<int>& line, const FitWindow& window) {
    const double slack = 1e-9 * (1 + std::abs(window.end));
    std::vector<int> inside;
    for (const int node : line) {
        const double distance = mesh.distance(node);
        if (distance >= window.begin - slack && distance <= window.end + slack) {
            inside.push_back(node);
        }
    }
    return inside;
}

/// Direction of least square distance: the principal axis of the points about their mean.
Eigen::Vector2d principal_direction(const std::vector<Eigen::Vector2d>& from_mean) {
    double xx = 0;
    double yy = 0;
    double xy = 0;
    for (const Eigen::Vector2d& p : from_mean) {
        xx += p.x() * p.x();
        yy += p.y() * p.y();
        xy += p.x() * p.y();
    }
    const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
    return {std::cos(angle), std::sin(angle)};
}

} // namespace

FitWindow straight_window(double begin, double end) {
    const double straight = end - begin;
    return {begin + window_begin * straight, begin + window_end * straight};
}

FitWindow fit_window(const job::Job& job, double station) {
    const double bend = job.block.wall_angle * (job.block.nose_radius + 0.5 * job.sheet.thickness);
    const bool has_room_for_lip = job.blank.lip_width > 0;
    const double end =
        has_room_for_lip ? job.blank.lip_begin() : job.blank.flange_width_at(station);
    return straight_window(bend, end);
}

FlangeLine fit_flange_line(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const Section& section,
    int station_line,
    const FitWindow& window
) {
    const std::vector<int>& line = mesh.station_lines[static_cast<std::size_t>(station_line)];
    check(line.size() >= 2, "a station line has two nodes");
    std::vector<int> nodes = nodes_in(mesh, line, window);
    FlangeLine fit;
    fit.is_sparse = nodes.size() < enough_nodes;
    if (nodes.size() < 2) {
        nodes = {line[line.size() - 2], line.back()};
    }
    std::vector<Eigen::Vector2d> points;
    for (const int node : nodes) {
        points.push_back(section.at(shape.positions.col(node)));
        fit.point += points.back();
        fit.thickness += shape.thickness(node);
    }
    fit.n_nodes = static_cast<int>(nodes.size());
    fit.point /= fit.n_nodes;
    fit.thickness /= fit.n_nodes;
    const Eigen::Vector2d toward_edge = points.back() - points.front();
    for (Eigen::Vector2d& p : points) {
        p -= fit.point;
    }
    fit.direction = principal_direction(points);
    if (fit.direction.dot(toward_edge) < 0) {
        fit.direction = -fit.direction;
    }
    return fit;
}

double flange_angle(const FlangeLine& line) {
    // The flange is bent down, away from the outer face: its height falls toward the edge.
    const double angle = std::atan2(-line.direction.y(), line.direction.x());
    return angle < -0.5 * std::numbers::pi ? angle + 2 * std::numbers::pi : angle;
}

} // namespace flangewright::findings
