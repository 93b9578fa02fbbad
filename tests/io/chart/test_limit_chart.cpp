#include "io/chart/limit_chart.hpp"

#include <gtest/gtest.h>

namespace flangewright::chart {
namespace {

TEST(LimitChart, HoldsCurvesAndPoints) {
    LimitChart chart;
    chart.curves = {{"computed", {-0.1, 0, 0.3}, {0.2, 0.1, 0.3}}};
    const LimitExtent curve = extent_of(chart);
    EXPECT_LE(curve.least_minor, -0.1);
    EXPECT_GE(curve.most_minor, 0.3);
    EXPECT_GE(curve.most_major, 0.3);
    chart.measured_minor = {-0.4, 0.6};
    chart.measured_major = {0.9, 0.5};
    const LimitExtent both = extent_of(chart);
    EXPECT_LE(both.least_minor, -0.4);
    EXPECT_GE(both.most_minor, 0.6);
    EXPECT_GE(both.most_major, 0.9);
}

TEST(LimitChart, IsFivePercentWideAtLeast) {
    const LimitExtent extent = extent_of(LimitChart{});
    EXPECT_LE(extent.least_minor, -0.05);
    EXPECT_GE(extent.most_minor, 0.05);
    EXPECT_GE(extent.most_major, 0.05);
}

TEST(LimitChart, OfNothingIsNoPicture) {
    EXPECT_EQ(limit_chart(LimitChart{}), "");
}

} // namespace
} // namespace flangewright::chart
