#include "io/compare/overlay_plot.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <cstdio>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TEST(OverlayPlot, AxesAreRoundAndHoldAllValues) {
    for (const auto& [least, most] : std::vector<std::array<double, 2>>{
             {0, 1}, {87.1, 89.4}, {-3, 12.7}, {5, 5}, {0, 0}, {-0.002, 0.001}, {88, 88.00001}}) {
        const std::array<double, 3> axis = round_axis(least, most);
        EXPECT_LT(axis[0], axis[1]);
        EXPECT_LE(axis[0], least);
        EXPECT_GE(axis[1], most);
        const double n = (axis[1] - axis[0]) / axis[2];
        EXPECT_NEAR(n, std::round(n), 1e-6);
        EXPECT_LE(n, 12);
        EXPECT_GE(n, 2);
    }
}

TEST(OverlayPlot, HasALineAndANumberForEachVariant) {
    const std::string svg = overlay_plot(
        {"Angle <x>", "deg", "Station", {{0, {{0, 10}, {88, 89}}}, {2, {{0, 10}, {87, 89}}}}}
    );
    EXPECT_THAT(svg, HasSubstr("Angle &lt;x&gt;"));
    EXPECT_THAT(svg, HasSubstr(">1</text>"));
    EXPECT_THAT(svg, HasSubstr(">3</text>"));
    EXPECT_THAT(svg, HasSubstr(stroke_of(2).colour));
    EXPECT_THAT(svg, Not(HasSubstr("nan")));
}

TEST(OverlayPlot, AHigherValueStandsHigherOnThePage) {
    const std::string svg = overlay_plot({"a", "b", "c", {{0, {{0, 10}, {1, 2}}}}});
    const std::size_t at = svg.find("points=\"") + 8;
    double x1 = 0;
    double y1 = 0;
    double x2 = 0;
    double y2 = 0;
    ASSERT_EQ(std::sscanf(svg.c_str() + at, "%lf,%lf %lf,%lf", &x1, &y1, &x2, &y2), 4);
    EXPECT_LT(x1, x2);
    EXPECT_GT(y1, y2);
}

TEST(OverlayPlot, WithoutCurvesIsNothing) {
    EXPECT_EQ(overlay_plot({"a", "b", "c", {{0, {}}, {1, {{5}, {3}}}}}), "");
}

TEST(OverlayPlot, NeighboursHaveUnlikeColoursAndDashes) {
    for (std::size_t i = 0; i + 1 < 24; ++i) {
        EXPECT_NE(stroke_of(i).colour, stroke_of(i + 1).colour);
        EXPECT_NE(stroke_of(i).dashes, stroke_of(i + 1).dashes);
    }
}

} // namespace
} // namespace flangewright::compare
