#include "solver/findings/set_down.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

using Eigen::Matrix3Xd;
using Eigen::Vector3d;
using job::EndKind;
using outline::BendLine;

constexpr double rounding = 1e-9; // mm, on a part of 60 mm

/// A folded strip held on the block, and the same with an arched web, lying anywhere.
struct Part {
    BendLine line = BendLine::straight(60);
    grid::SheetMesh mesh = support::flat_blank({.line = line, .bend_width = 5.5});
    support::Folded held = support::fold(mesh, line, 3.5, 90 * support::degree);
    support::Folded released = held;
    Eigen::VectorXd thickness = Eigen::VectorXd::Ones(mesh.n_nodes());

    Part() {
        held.positions.row(2).array() += 0.5; // the block's face is z = 0
        released = held;
        for (int node = 0; node < mesh.n_nodes(); ++node) {
            const double x = mesh.positions(0, node);
            released.positions(2, node) -= 0.001 * x * x;
        }
    }

    void displace(const Eigen::Matrix3d& turn, const Vector3d& shift) {
        released.positions = ((turn * released.positions).colwise() + shift).eval();
        released.directors = (turn * released.directors).eval();
    }

    [[nodiscard]] RigidMove move(const job::Blank& blank = {}) const {
        return move_onto_block(
            mesh,
            {released.positions, released.directors, thickness},
            free_tilts(blank),
            held.positions
        );
    }

    /// Heights of the web's block face above the block.
    [[nodiscard]] Eigen::VectorXd gaps() const {
        const RigidMove down = move();
        const Matrix3Xd points = down.of_points(released.positions);
        const Matrix3Xd directors = down.of_directors(released.directors);
        std::vector<double> heights;
        for (int node = 0; node < mesh.n_nodes(); ++node) {
            if (mesh.distance(node) <= 0) {
                heights.push_back(points(2, node) - 0.5 * directors(2, node));
            }
        }
        return Eigen::Map<Eigen::VectorXd>(
            heights.data(), static_cast<Eigen::Index>(heights.size())
        );
    }
};

const Eigen::Matrix3d some_turn =
    Eigen::AngleAxisd(0.08, Vector3d(1, -2, 1.5).normalized()).toRotationMatrix();

// The arch of 0.001 x^2 stands on its ends at x = +-30 and rises by 0.9 mm.
TEST(SetDown, PutsTheLowestPointsOnTheBlockAndLeavesTheWebLiftAbove) {
    Part part;
    part.displace(some_turn, {3, -7, -40});
    EXPECT_NEAR(part.gaps().minCoeff(), 0, rounding);
    EXPECT_NEAR(part.gaps().maxCoeff(), 0.9, rounding);
}

TEST(SetDown, DoesNotMatterHowThePartLayBefore) {
    Part part;
    const Matrix3Xd as_it_was = part.move().of_points(part.released.positions);
    part.displace(some_turn, {3, -7, -40});
    const Matrix3Xd moved = part.move().of_points(part.released.positions);
    EXPECT_LT((moved - as_it_was).colwise().norm().maxCoeff(), rounding);
}

TEST(SetDown, BringsARigidlyMovedPartBackToWhereItWasHeld) {
    Part part;
    part.released = part.held;
    part.displace(some_turn, {3, -7, -40});
    const RigidMove move = part.move();
    EXPECT_LT((move.of_points(part.released.positions) - part.held.positions).norm(), 1e-7);
    EXPECT_LT((move.of_directors(part.released.directors) - part.held.directors).norm(), 1e-9);
}

TEST(SetDown, NeverMovesAPartOutOfItsPlaneOfSymmetry) {
    Part part;
    job::Blank blank;
    blank.line = part.line;
    blank.start = EndKind::continues;
    const Vector3d normal = blank.line.frame(0).tangent;
    const Vector3d along_plane = blank.line.frame(0).outward;
    part.displace(Eigen::AngleAxisd(0.05, normal).toRotationMatrix(), 4 * along_plane);
    const RigidMove move = part.move(blank);
    EXPECT_LT((move.turn * normal - normal).norm(), 1e-12);
    EXPECT_NEAR(move.shift.dot(normal), 0, rounding);
    const Matrix3Xd moved = move.of_points(part.released.positions);
    const double off = (moved - part.held.positions).row(1).cwiseAbs().maxCoeff();
    EXPECT_LT(off, 0.1) << "slid back along the plane; what is left is the tilt";
}

} // namespace
} // namespace flangewright::findings
