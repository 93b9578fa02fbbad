#include "io/chart/curve_chart.hpp"

#include <gtest/gtest.h>

namespace flangewright::chart {
namespace {

DrawnCurve flat(double fitted_to) {
    return {"flat", "", [](double) { return 100.0; }, 0, fitted_to};
}

TEST(CurveChart, ShowsHalfAsFarAgainAsIsKnown) {
    CurveChart chart;
    chart.curves = {flat(0.1)};
    EXPECT_DOUBLE_EQ(last_strain(chart), 0.15);
    chart.uniform_strain = 0.2;
    EXPECT_DOUBLE_EQ(last_strain(chart), 0.3);
    chart.measured_strain = {0.1, 0.4};
    EXPECT_DOUBLE_EQ(last_strain(chart), 0.6);
}

TEST(CurveChart, ShowsFivePercentAtLeast) {
    CurveChart chart;
    chart.curves = {flat(0)};
    EXPECT_DOUBLE_EQ(last_strain(chart), 0.05);
}

TEST(CurveChart, OfNothingIsNoPicture) {
    EXPECT_EQ(curve_chart(CurveChart{}), "");
}

} // namespace
} // namespace flangewright::chart
