#include "io/compare/part_drawing.hpp"

#include <gmock/gmock.h>

#include <cstdio>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;

/// One element, so wide.
vtk::ReadShape square(double width, double figure) {
    vtk::ReadShape shape;
    shape.positions.resize(3, 4);
    shape.positions << 0, width, width, 0, 0, 0, width, width, 0, 0, 0, 0;
    shape.quads = {{0, 1, 2, 3}};
    shape.figure = Eigen::VectorXd::Constant(4, figure);
    return shape;
}

double width_of_view(const std::string& svg, std::size_t from) {
    double x = 0;
    double y = 0;
    double width = 0;
    const std::size_t at = svg.find("<svg viewBox=\"", from) + 14;
    EXPECT_EQ(std::sscanf(svg.c_str() + at, "%lf %lf %lf", &x, &y, &width), 3);
    return width;
}

TEST(PartDrawing, AllPartsHaveOneScaleOfSize) {
    const std::string svg =
        part_drawings({"Thinning, %", {{"small", square(10, 1)}, {"large", square(50, 2)}}});
    const double first = width_of_view(svg, 0);
    const double second = width_of_view(svg, svg.find("small</p>"));
    EXPECT_DOUBLE_EQ(first, second);
    EXPECT_GT(first, 50);
}

TEST(PartDrawing, TheSameFigureHasTheSameColourInEveryPart) {
    const std::string svg = part_drawings(
        {"Thinning, %", {{"a", square(10, 1)}, {"b", square(10, 4)}, {"c", square(10, 1)}}}
    );
    const auto fill_after = [&svg](const std::string& mark) {
        return svg.substr(svg.find("fill=\"", svg.find("aria-label=\"" + mark)) + 6, 7);
    };
    EXPECT_EQ(fill_after("a"), fill_after("c"));
    EXPECT_NE(fill_after("a"), fill_after("b"));
    EXPECT_THAT(svg, HasSubstr("Thinning, %"));
}

TEST(PartDrawing, WithoutPartsIsNothing) {
    EXPECT_EQ(part_drawings({"x", {}}), "");
}

} // namespace
} // namespace flangewright::compare
