#include "io/command_line/progress_line.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>
#include <sstream>

namespace flangewright::command_line {
namespace {

Progress half_way(double seconds_left) {
    Progress progress;
    progress.step = "bend-down";
    progress.share_done = 0.5;
    progress.flange_angle = std::numbers::pi / 4;
    progress.n_iterations = 312;
    progress.seconds_left = seconds_left;
    return progress;
}

TEST(ProgressLine, SaysStepAngleIterationsAndTimeLeft) {
    EXPECT_EQ(
        progress_text(half_way(40.2)),
        "bend-down 50 %, flange at 45.0 deg, 312 iterations, about 41 s left"
    );
    EXPECT_EQ(progress_text({.step = "scatter", .share_done = 0.5}), "scatter 50 %");
    EXPECT_THAT(progress_text(half_way(130)), ::testing::EndsWith("about 3 min left"));
    EXPECT_THAT(progress_text(half_way(-1)), ::testing::EndsWith("312 iterations"));
}

TEST(ProgressLine, IsQuietWhenNobodyWatches) {
    std::ostringstream out;
    std::ostringstream err;
    Terminal terminal{out, err, false};
    {
        ProgressLine line(terminal);
        line.show(half_way(1));
    }
    EXPECT_EQ(out.str() + err.str(), "");
}

TEST(ProgressLine, IsDrawnOverAndTakenAway) {
    std::ostringstream out;
    std::ostringstream err;
    Terminal terminal{out, err, true};
    {
        ProgressLine line(terminal);
        line.show(half_way(1));
        line.show(half_way(1)); // too soon: not drawn
    }
    EXPECT_EQ(out.str(), "");
    EXPECT_EQ(err.str(), "\r" + progress_text(half_way(1)) + "\x1b[K\r\x1b[K");
}

} // namespace
} // namespace flangewright::command_line
