#include "mesh/grid/grading.hpp"
#include "mesh/grid/opening_windows.hpp"
#include "mesh/grid/stations.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::grid {
namespace {

BlankGrid strip() {
    BlankGrid blank;
    blank.line = outline::BendLine::straight(100);
    blank.web_width = 40;
    blank.bend_width = 4;
    blank.flange_width = 24;
    return blank;
}

WindowedLines windows_in(const BlankGrid& blank) {
    return lines_with_windows(blank, stations_along(blank), distances_across(bands_across(blank)));
}

TEST(OpeningWindows, HoldTheirOpening) {
    BlankGrid blank = strip();
    blank.openings.holes = {{50, -20, 10, false}};
    const WindowedLines lines = windows_in(blank);
    ASSERT_EQ(lines.windows.size(), 1U);
    const Window& window = lines.windows[0];
    EXPECT_LT(window.stations.begin, 45);
    EXPECT_GT(window.stations.end, 55);
    EXPECT_LT(window.distances.begin, -25);
    EXPECT_GT(window.distances.end, -15);
    for (const double border : {window.stations.begin, window.stations.end}) {
        EXPECT_NE(std::ranges::find(lines.stations, border), lines.stations.end());
    }
    for (const double border : {window.distances.begin, window.distances.end}) {
        EXPECT_NE(std::ranges::find(lines.distances, border), lines.distances.end());
    }
}

TEST(OpeningWindows, KeepOutOfTheBend) {
    BlankGrid blank = strip();
    blank.openings.holes = {{30, -4, 6, false}, {60, 8, 6, false}};
    for (const Window& window : windows_in(blank).windows) {
        const bool is_in_web = window.distances.end <= 0;
        EXPECT_TRUE(is_in_web || window.distances.begin >= 4);
    }
}

TEST(OpeningWindows, OverlappingOnesAreOne) {
    BlankGrid blank = strip();
    blank.openings.holes = {{30, -20, 8, false}, {42, -20, 8, false}, {80, -20, 8, false}};
    const WindowedLines lines = windows_in(blank);
    ASSERT_EQ(lines.windows.size(), 2U);
    EXPECT_THAT(lines.windows[0].holes, testing::ElementsAre(0, 1));
}

TEST(OpeningWindows, BendKeepsItsLines) {
    BlankGrid blank = strip();
    blank.openings.holes = {{30, -20, 8, false}};
    const std::vector<double> distances = windows_in(blank).distances;
    const auto n = std::ranges::count_if(distances, [](double d) { return d > 0 && d <= 4; });
    EXPECT_EQ(n, blank.n_round_nose);
}

TEST(OpeningWindows, NotchReachesTheEdgeAndStopsAtATab) {
    BlankGrid blank = strip();
    blank.openings.notches = {{30, 5, 8}};
    blank.openings.tabs = {{36, 60, 5}};
    const WindowedLines lines = windows_in(blank);
    ASSERT_EQ(lines.windows.size(), 1U);
    EXPECT_DOUBLE_EQ(lines.windows[0].distances.end, 24);
    EXPECT_LE(lines.windows[0].stations.end, 36);
    EXPECT_DOUBLE_EQ(lines.distances.back(), 29);
}

} // namespace
} // namespace flangewright::grid
