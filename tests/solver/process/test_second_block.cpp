// Where the lip's block stands, in numbers worked out with a ruler.
#include "solver/process/second_block.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::LipSide;

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-12;

/// Sheet of 1 mm, first nose 3 mm, flange 20 mm deep, second nose 2 mm.
job::Job lip_job(LipSide side, double wall_angle = 90 * degree) {
    job::Job job = support::small_flange(
        outline::BendLine::straight(10), job::EndKind::free, job::EndKind::free
    );
    job.block.wall_angle = wall_angle;
    job.drive.angle = wall_angle;
    job.blank.flange_depth = 20;
    job.return_bend = job::ReturnBend{.side = side, .lip_depth = 9, .nose_radius = 2};
    return job;
}

// The outside of the lip lies 20 mm below the web's outside at height 1, so its block's underside
// at -18, and the nose begins 2 mm above that.
TEST(SecondBlock, OfASquareFlangeStandsAtTheDepthOfTheDrawing) {
    const SecondSection under = second_section(lip_job(LipSide::under_web));
    EXPECT_LT((under.origin - Eigen::Vector2d(3, -16)).norm(), rounding);
    EXPECT_LT((under.axes.col(0) - Eigen::Vector2d(0, -1)).norm(), rounding);
    EXPECT_LT((under.axes.col(1) - Eigen::Vector2d(1, 0)).norm(), rounding);
    const SecondSection away = second_section(lip_job(LipSide::away_from_web));
    EXPECT_LT((away.origin - Eigen::Vector2d(4, -16)).norm(), rounding);
    EXPECT_LT((away.axes.col(1) - Eigen::Vector2d(-1, 0)).norm(), rounding);
}

TEST(SecondBlock, TakesTheFlangeBetweenItAndTheOtherBlock) {
    for (const double wall : {75 * degree, 90 * degree, 96 * degree}) {
        for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
            const job::Job job = lip_job(side, wall);
            const SecondSection section = second_section(job);
            const tooling::FormBlock form_block(job.block.nose_radius, wall);
            // A place on the second block's face, and a thickness off it.
            const Eigen::Vector2d on_face = section.origin - 3 * section.axes.col(0);
            const Eigen::Vector2d across = on_face + section.axes.col(1);
            const bool is_under = side == LipSide::under_web;
            EXPECT_NEAR(form_block.at(is_under ? on_face : across).distance, 0, rounding);
            EXPECT_NEAR(form_block.at(is_under ? across : on_face).distance, 1, rounding);
            EXPECT_NEAR(section.at(across)[1], 1, rounding);
            EXPECT_NEAR(section.at(on_face)[0], -3, rounding);
            EXPECT_EQ(section.block_face() == tooling::Face::block, is_under);
            EXPECT_EQ(section.driven_face() == tooling::Face::outer, is_under);
        }
    }
}

TEST(SecondBlock, PlacesAShapeWhereItsAxesSay) {
    const SecondSection section = second_section(lip_job(LipSide::under_web));
    const auto nose = placed(section, std::make_shared<tooling::FormBlock>(2, 90 * degree));
    EXPECT_NEAR(nose->at({3.4, -10}).distance, 0.4, rounding); // beside the flange
    EXPECT_NEAR(nose->at({-5, -18.7}).distance, 0.7, rounding); // below the underside
    EXPECT_NEAR(
        nose->at({1 + 2.3 * std::cos(0.5), -16 - 2.3 * std::sin(0.5)}).distance, 0.3, rounding
    );
}

// The free edge's directors turned by hand.
TEST(SecondBlock, LipAngleCountsFromTheClampedFlangeToEitherSide) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        job::Job job = lip_job(side);
        job.blank.flange_width = 30;
        job.blank.lip_width = 10;
        Workpiece piece = support::small_workpiece(job, 2);
        const SecondSection section = second_section(job);
        for (const double lip : {-5 * degree, 0.0, 40 * degree, 95 * degree}) {
            const double turned =
                90 * degree + (side == LipSide::under_web ? lip : -lip); // of the director
            for (const int node : piece.mesh.free_edge) {
                piece.state.directors.col(node) =
                    std::sin(turned) * piece.node_axes[static_cast<std::size_t>(node)].col(1)
                    + std::cos(turned) * Eigen::Vector3d::UnitZ();
            }
            EXPECT_NEAR(lip_angle(piece, section), lip, rounding);
        }
    }
}

} // namespace
} // namespace flangewright::process
