#include "io/chart/edge_chart.hpp"

#include <gtest/gtest.h>

namespace flangewright::chart {
namespace {

/// Rises from 0 to 10 per cent over the last half.
EdgeChart rising() {
    EdgeChart chart;
    for (int i = 0; i <= 100; ++i) {
        chart.stations.push_back(i);
        chart.stretch_percent.push_back(i < 50 ? 0 : 0.2 * (i - 50));
    }
    return chart;
}

TEST(EdgeChart, PutsWordsWhereTheCurveIsFarAway) {
    // Near zero the curve is far off at its high end, near ten at its low end.
    EXPECT_GT(caption_place(rising(), {.level = 0, .width = 0.1}), 0.7);
    EXPECT_LT(caption_place(rising(), {.level = 10, .width = 0.1}), 0.4);
}

TEST(EdgeChart, KeepsWordsOnTheAxisAndOutOfOtherWords) {
    const double wide = 0.3;
    for (const double level : {0.0, 5.0, 10.0}) {
        const double from = caption_place(rising(), {.level = level, .width = wide});
        EXPECT_GE(from, 0);
        EXPECT_LE(from + wide, 1);
        const double moved =
            caption_place(rising(), {.level = level, .width = wide, .taken = {from, from + 0.1}});
        EXPECT_TRUE(moved + wide <= from || moved >= from + 0.1) << moved << " over " << from;
    }
}

} // namespace
} // namespace flangewright::chart
