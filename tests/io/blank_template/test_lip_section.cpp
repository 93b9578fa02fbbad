#include "io/blank_template/lip_section.hpp"
#include "solver/process/second_block.hpp"
#include "tests/io/blank_template/lip_request.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::blank_template {
namespace {

constexpr double last_bits = 1e-9;

double lowest(const Vertices& path) {
    double low = 1e9;
    for (const Eigen::Vector2d& point : paper::flattened({paper::Pen::sheet, path, true}, 0.0005)) {
        low = std::min(low, point.y());
    }
    return low;
}

TEST(LipSection, StandsWhereTheSolverPutsItsTools) {
    for (const job::LipSide side : {job::LipSide::under_web, job::LipSide::away_from_web}) {
        const job::Job job = lip_request(side).job;
        const LipSection section(job, -30);
        EXPECT_TRUE(section.nose_begin().isApprox(process::second_section(job).origin, last_bits));
    }
}

// Square: the drawing's depths are plain heights and widths.
TEST(LipSection, HasTheDrawingsDepths) {
    for (const job::LipSide side : {job::LipSide::under_web, job::LipSide::away_from_web}) {
        const LipSection section(lip_request(side).job, -30);
        EXPECT_NEAR(lowest(section.sheet()), 0.8 - 18, 0.001);
        EXPECT_NEAR(section.upper_corner().y() - section.lower_corner().y(), 18, last_bits);
        const double lip = section.lip_edge().x() - section.lower_corner().x();
        EXPECT_NEAR(lip, side == job::LipSide::under_web ? -8 : 8, last_bits);
        EXPECT_NEAR(section.lip_edge().y(), 0.8 - 18, last_bits);
    }
}

TEST(LipSection, TurnsTheLipOverTheFormBlocksLowerEdge) {
    const LipSection section(lip_request(job::LipSide::under_web).job, -30);
    EXPECT_TRUE(section.outer_block().empty());
    // The lip lies between the block's lower face and the drawing's outside.
    EXPECT_NEAR(section.foot(), 0.8 - 18 + 0.8, last_bits);
    const Vertices block = section.form_block();
    EXPECT_NEAR(paper::bulge_radius(block[3].at, block[4].at, block[3].bulge), 2, last_bits);
}

TEST(LipSection, TurnsTheLipOverABlockOutsideTheFlange) {
    const LipSection section(lip_request(job::LipSide::away_from_web).job, -30);
    const Vertices block = section.outer_block();
    ASSERT_EQ(block.size(), 5U);
    EXPECT_NEAR(block[0].at.x(), 2.4 + 0.8, last_bits); // flange's outside
    EXPECT_NEAR(paper::bulge_radius(block[1].at, block[2].at, block[1].bulge), 2, last_bits);
    EXPECT_NEAR(section.nose_end().y(), 0.8 - 18 + 0.8, last_bits); // the lip's inside
}

} // namespace
} // namespace flangewright::blank_template
