#include "solver/findings/flange_angle.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using support::degree;

constexpr double rounding = 1e-10;

struct Case {
    job::Job job;
    grid::SheetMesh mesh;
    support::Folded folded;
    Eigen::VectorXd thickness;

    Case(const outline::BendLine& line, double angle) : job(support::straight_job()) {
        job.blank.line = line;
        job.block.wall_angle = angle;
        job.drive.angle = angle;
        mesh = support::flat_blank({.line = line, .bend_width = 3.5 * angle, .flange_width = 20});
        folded = support::fold(mesh, line, 3.5, angle);
        thickness = Eigen::VectorXd::Ones(mesh.n_nodes());
    }

    [[nodiscard]] FlangeLine line_at(int station_line, const WebPlane& plane = {}) const {
        const int edge = mesh.free_edge[static_cast<std::size_t>(station_line)];
        const Section section(job.blank.line.frame(mesh.station(edge)), plane);
        const PartShape shape{folded.positions, folded.directors, thickness};
        return fit_flange_line(mesh, shape, section, station_line, fit_window(job));
    }
};

TEST(FlangeAngle, IsTheAngleOfAnIdealFold) {
    for (const double angle : {30 * degree, 90 * degree, 118 * degree, 170 * degree}) {
        const Case straight(outline::BendLine::straight(60), angle);
        const Case arc(outline::BendLine::arc(80, 1, outline::Curve::concave), angle);
        for (const int station : {0, 5, 12}) {
            EXPECT_NEAR(flange_angle(straight.line_at(station)), angle, rounding);
            EXPECT_NEAR(flange_angle(arc.line_at(station)), angle, rounding);
        }
    }
}

TEST(FlangeAngle, IsNegativeWhenTheFlangeIsBentUp) {
    Case upward(outline::BendLine::straight(60), 40 * degree);
    upward.folded.positions.row(2) *= -1;
    EXPECT_NEAR(flange_angle(upward.line_at(3)), -40 * degree, rounding);
}

TEST(FlangeAngle, IsTakenFromTheWebPlaneNotFromTheLevel) {
    Case turned(outline::BendLine::straight(60), 90 * degree);
    // About +x the flange (toward +y and down) is lifted: seen from the level it opens by 7 deg.
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(7 * degree, Eigen::Vector3d::UnitX()).toRotationMatrix();
    turned.folded.positions = (turn * turned.folded.positions).eval();
    WebPlane plane;
    plane.normal = turn * plane.normal;
    EXPECT_NEAR(flange_angle(turned.line_at(4, plane)), 90 * degree, rounding);
    EXPECT_NEAR(flange_angle(turned.line_at(4)), 83 * degree, rounding);
}

TEST(FlangeAngle, TakesFortyToNinetyPerCentOfTheStraightPart) {
    job::Job job = support::straight_job();
    const FitWindow window = fit_window(job);
    const double bend = 90 * degree * 3.5;
    EXPECT_NEAR(window.begin, bend + 0.4 * (20 - bend), rounding);
    EXPECT_NEAR(window.end, bend + 0.9 * (20 - bend), rounding);
    // What lies outside must not count.
    Case bumpy(outline::BendLine::straight(60), 90 * degree);
    for (const int node : bumpy.mesh.station_lines[2]) {
        const double at = bumpy.mesh.distance(node);
        if (at < window.begin - 0.01 || at > window.end + 0.01) {
            bumpy.folded.positions(1, node) += 0.5;
        }
    }
    EXPECT_NEAR(flange_angle(bumpy.line_at(2)), 90 * degree, rounding);
    EXPECT_FALSE(bumpy.line_at(2).is_sparse);
}

TEST(FlangeAngle, FitsABowedFlangeByLeastSquares) {
    // A parabola y = c (s - s0)^2 about the window's middle has the tangent of its middle as fit.
    Case bowed(outline::BendLine::straight(60), 90 * degree);
    const FitWindow window = fit_window(bowed.job);
    double sum = 0;
    int n = 0;
    for (const int node : bowed.mesh.station_lines[2]) {
        const double at = bowed.mesh.distance(node);
        if (at > window.begin - 1e-6 && at < window.end + 1e-6) {
            sum += at;
            ++n;
        }
    }
    for (const int node : bowed.mesh.station_lines[2]) {
        const double from_middle = bowed.mesh.distance(node) - sum / n;
        bowed.folded.positions(1, node) += 0.01 * from_middle * from_middle + 0.02 * from_middle;
    }
    EXPECT_NEAR(flange_angle(bowed.line_at(2)), 90 * degree - std::atan(0.02), 2e-5); // tan, sin
}

TEST(FlangeAngle, SaysWhenTooFewNodesCarryIt) {
    const outline::BendLine line = outline::BendLine::straight(60);
    Case coarse(line, 90 * degree);
    for (const int n_straight : {1, 3}) {
        coarse.mesh = support::flat_blank(
            {.line = line, .bend_width = 3.5 * 90 * degree, .n_straight = n_straight}
        );
        coarse.folded = support::fold(coarse.mesh, line, 3.5, 90 * degree);
        coarse.thickness = Eigen::VectorXd::Ones(coarse.mesh.n_nodes());
        const FlangeLine fit = coarse.line_at(2);
        EXPECT_TRUE(fit.is_sparse);
        EXPECT_EQ(fit.n_nodes, 2);
        EXPECT_NEAR(flange_angle(fit), 90 * degree, 1e-8);
    }
}

} // namespace
} // namespace flangewright::findings
