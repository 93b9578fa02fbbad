// A tool worked along the line: what is done where, and a reading whose changes along the line are
// its derivatives.
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "solver/tooling/surface/worked_tool.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::tooling {
namespace {

constexpr WorkedStretch from_start{.begin = -2, .end = 82, .front = 25, .from = FrontFrom::start};

WorkedStretch stretch(FrontFrom from) {
    WorkedStretch stretch = from_start;
    stretch.from = from;
    return stretch;
}

TEST(WorkedTool, HasDoneNothingAtFirstAndAllAtLast) {
    for (const FrontFrom from : {FrontFrom::start, FrontFrom::end, FrontFrom::both_ends}) {
        for (double station = -2; station <= 82; station += 3) {
            EXPECT_EQ(done_at(stretch(from), station, 0).value, 0);
            EXPECT_EQ(done_at(stretch(from), station, 1).value, 1);
        }
    }
}

TEST(WorkedTool, ReachesTheFarPlacesLast) {
    const auto share_of_half = [](FrontFrom from, double station) {
        double share = 0;
        while (done_at(stretch(from), station, share).value < 0.5) {
            share += 1e-3;
        }
        return share;
    };
    EXPECT_LT(share_of_half(FrontFrom::start, 10), share_of_half(FrontFrom::start, 40));
    EXPECT_LT(share_of_half(FrontFrom::start, 40), share_of_half(FrontFrom::start, 70));
    EXPECT_NEAR(
        share_of_half(FrontFrom::end, 70), share_of_half(FrontFrom::start, 10), 2e-3
    ); // the mirror image
    EXPECT_LT(share_of_half(FrontFrom::both_ends, 5), share_of_half(FrontFrom::both_ends, 40));
    EXPECT_NEAR(
        share_of_half(FrontFrom::both_ends, 5), share_of_half(FrontFrom::both_ends, 75), 2e-3
    );
}

TEST(WorkedTool, NeverTakesBackWhatIsDone) {
    for (const FrontFrom from : {FrontFrom::start, FrontFrom::end, FrontFrom::both_ends}) {
        for (double station = 0; station <= 80; station += 8) {
            double before = 0;
            for (double share = 0; share <= 1; share += 0.01) {
                const double now = done_at(stretch(from), station, share).value;
                EXPECT_GE(now, before);
                before = now;
            }
        }
    }
}

TEST(WorkedTool, SlopeAndBendAlongTheLineAreDerivatives) {
    constexpr double h = 1e-4;
    for (const FrontFrom from : {FrontFrom::start, FrontFrom::end, FrontFrom::both_ends}) {
        double steepest = 0;
        for (const double share : {0.2, 0.5, 0.8, 0.93}) {
            for (double station = 0.41; station < 80; station += 2.9) {
                const AlongLine here = done_at(stretch(from), station, share);
                const AlongLine past = done_at(stretch(from), station + h, share);
                const AlongLine before = done_at(stretch(from), station - h, share);
                EXPECT_NEAR(here.slope, (past.value - before.value) / (2 * h), 1e-7);
                EXPECT_NEAR(here.bend, (past.slope - before.slope) / (2 * h), 1e-7);
                steepest = std::max(steepest, std::abs(here.slope));
            }
        }
        EXPECT_GT(steepest, 1 / from_start.front); // the front is on the stretch
    }
}

TEST(WorkedTool, MakesOnePassAfterTheOther) {
    auto wiper = std::make_shared<Wiper>(4.4, 2);
    WorkedTool tool(wiper, from_start, {1, -3, -9});
    tool.move_to(0);
    EXPECT_EQ(tool.stroke_at(40).value, 1);
    tool.move_to(0.25); // half of the first
    EXPECT_EQ(tool.stroke_at(-1).value, -3);
    EXPECT_EQ(tool.stroke_at(81).value, 1);
    tool.move_to(0.5);
    EXPECT_EQ(tool.stroke_at(0).value, -3);
    EXPECT_EQ(tool.stroke_at(80).value, -3);
    tool.move_to(0.75);
    EXPECT_EQ(tool.stroke_at(-1).value, -9);
    EXPECT_EQ(tool.stroke_at(81).value, -3);
    tool.move_to(1);
    EXPECT_EQ(tool.stroke_at(0).value, -9);
    EXPECT_EQ(tool.stroke_at(80).value, -9);
    EXPECT_EQ(tool.placement_at(80).shift[1], -9);
    EXPECT_EQ(tool.placement().shift[1], -9);
}

void expect_derivatives_along(const WorkedTool& tool, const SectionPoint& point) {
    EXPECT_GT(expect_changes_along_line(tool, point, 1, 79, 3.7), 0.01);
}

TEST(WorkedTool, ReadingChangesAlongTheLineAsItSays) {
    for (const FrontFrom from : {FrontFrom::start, FrontFrom::end, FrontFrom::both_ends}) {
        WorkedTool wiper(std::make_shared<Wiper>(4.4, 6), stretch(from), {1, -3, -5});
        WorkedTool leaf(std::make_shared<Leaf>(3, 4.2), stretch(from), {0, 0.5, 1.5});
        for (const double share : {0.3, 0.7}) {
            wiper.move_to(share);
            expect_derivatives_along(wiper, {20, -4.0}); // below the underside
            expect_derivatives_along(wiper, {5, -6.0}); // off the round corner
            leaf.move_to(share);
            expect_derivatives_along(leaf, {9, -3.0});
        }
    }
}

} // namespace
} // namespace flangewright::tooling
