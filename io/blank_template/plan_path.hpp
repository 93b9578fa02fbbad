// Lines of the flat blank and of its tools seen from above, beside the bend line.
#pragma once

#include "io/paper/sheet.hpp"
#include "mesh/outline/bend_line.hpp"
#include "mesh/outline/openings.hpp"
#include "mesh/outline/profile.hpp"

#include <vector>

namespace flangewright::blank_template {

using Vertices = std::vector<paper::Vertex>;

/// A stretch of the bend line. Stations in mm.
struct Stretch {
    double begin = 0;
    double end = 0;
};

/// A point of the web plane. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] Eigen::Vector2d
plan_point(const outline::BendLine& line, double station, double distance);

/// Runs along the line at a distance from it, lines and arcs as the bend line's own. Units: mm.
/// Source: plane geometry. Fails: never.
[[nodiscard]] Vertices
beside_line(const outline::BendLine& line, const Stretch& stretch, double distance);

/// The same where the distance is a profile's value and `raised` more; a distance that varies is
/// run in straight parts of half a millimetre to 1 mm. Units: mm. Source: own choice. Fails: never.
[[nodiscard]] Vertices beside_line(
    const outline::BendLine& line,
    const Stretch& stretch,
    const outline::Profile& distance,
    double raised = 0
);

/// The free edge from start to end with its notches and tabs. Units: mm. Source: as the mesh has
/// them (mesh/grid/opening_sides.cpp). Fails: never.
[[nodiscard]] Vertices free_edge(
    const outline::BendLine& line, const outline::Profile& widths, const outline::Openings& openings
);

/// Run the other way. Units, source: none needed. Fails: never.
[[nodiscard]] Vertices reversed(const Vertices& path);

/// One after the other; a corner that both have is there once. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] Vertices joined(const Vertices& first, const Vertices& second);

} // namespace flangewright::blank_template
