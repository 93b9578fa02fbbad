#include "solver/findings/flange_depth.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using support::degree;

double depth_of_fold(double angle, double t) {
    const double mid_radius = 3 + 0.5 * t;
    const outline::BendLine line = outline::BendLine::arc(200, 0.3, outline::Curve::convex);
    const grid::SheetMesh mesh =
        support::flat_blank({.line = line, .bend_width = mid_radius * angle, .flange_width = 24});
    const support::Folded folded = support::fold(mesh, line, mid_radius, angle);
    const Eigen::VectorXd thickness = Eigen::VectorXd::Constant(mesh.n_nodes(), t);
    const PartShape shape{folded.positions, folded.directors, thickness};
    // A web plane that lies lower than the sheet must not matter: depth is taken from the sheet.
    const Section section(line.frame(mesh.station(mesh.free_edge[4])), {{0, 0, -5}, {0, 0, 1}});
    const FlangeLine fit = fit_flange_line(mesh, shape, section, 4, {14, 22});
    return flange_depth(shape, section, fit, mesh.bend_begin[4], mesh.free_edge[4]);
}

// Source: common practice, no source: mould-line depth = setback + straight part.
TEST(FlangeDepth, IsSetbackPlusStraightPart) {
    for (const double t : {0.5, 1.0, 2.0}) {
        for (const double angle : {45 * degree, 90 * degree, 120 * degree}) {
            const double straight = 24 - (3 + 0.5 * t) * angle;
            const double depth = (3 + t) * std::tan(0.5 * angle) + straight;
            EXPECT_NEAR(depth_of_fold(angle, t), depth, 1e-9);
        }
    }
}

TEST(FlangeDepth, IsTheFlatWidthWhenNothingIsBent) {
    EXPECT_NEAR(depth_of_fold(0, 1), 24, 1e-9);
    EXPECT_NEAR(depth_of_fold(0.5 * degree, 1), 24, 0.01);
}

} // namespace
} // namespace flangewright::findings
