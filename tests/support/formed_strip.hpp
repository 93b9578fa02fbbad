// A narrow strip in plane strain, half of it up to a plane of symmetry, formed by any rigid tools
// and let go.
#pragma once

#include "tests/support/elastic_sheet.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace flangewright::support {

/// Numbers of the strip's mesh, mm.
struct StripMesh {
    double length = 0; ///< from the plane of symmetry to the edge
    double fine_begin = 0; ///< evenly spaced between these
    double fine_end = 0;
    double spacing = 0.5;
    double widest = 3; ///< to which it grows outside
};

/// Flat distances of its nodes, plane of symmetry first.
[[nodiscard]] std::vector<double> strip_columns(const StripMesh& mesh);

/// A tool and the face of the sheet it meets.
struct StripTool {
    std::shared_ptr<const tooling::RigidSurface> surface;
    tooling::Face face = tooling::Face::block;
};

/// The strip: distances along y, heights along z, its lower face at height 0 to begin with.
class FormedStrip {
public:
    FormedStrip(shell::Section section, const StripMesh& mesh);

    /// Moves the tools from share 0 to 1 of their way with Coulomb friction on all of them.
    equilibrium::PathReport form(
        const std::vector<StripTool>& tools,
        double friction,
        const std::function<void(double share)>& move
    );
    /// The tools' forces instead of the tools, faded to nothing; only the middle keeps its height.
    equilibrium::PathReport release();

    /// Distance and height of the mid-surface at a flat distance.
    [[nodiscard]] Eigen::Vector2d middle(double flat_distance) const;
    [[nodiscard]] double penetration() const { return penetration_; }

private:
    SheetTrial trial_;
    std::vector<double> columns_;
    double penetration_ = 0; ///< deepest at the end of forming, mm
};

/// Slope of the chord from one place of the section to another, deg.
[[nodiscard]] double slope_deg(const Eigen::Vector2d& from, const Eigen::Vector2d& to);

/// One over the radius of the circle through three places, positive when it turns left.
[[nodiscard]] double
curvature_through(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c);

} // namespace flangewright::support
