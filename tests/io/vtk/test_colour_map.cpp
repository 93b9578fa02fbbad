#include "io/vtk/colour_map.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace flangewright::vtk {
namespace {

constexpr int n_steps = 64;

double eye_distance(double from, double to) {
    const auto a = lab_at(from);
    const auto b = lab_at(to);
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// Relative luminance of an sRGB colour (IEC 61966-2-1, from memory).
double luminance(const Colour& colour) {
    const auto linear = [](double value) {
        return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

TEST(ColourMap, StepsEvenlyToTheEye) {
    const double mean = [] {
        double sum = 0;
        for (int i = 0; i < n_steps; ++i) {
            sum += eye_distance(i / 64.0, (i + 1) / 64.0);
        }
        return sum / n_steps;
    }();
    // The path is walked in 400 straight pieces; 2 % is what that leaves.
    for (int i = 0; i < n_steps; ++i) {
        EXPECT_NEAR(eye_distance(i / 64.0, (i + 1) / 64.0), mean, 0.02 * mean) << i;
    }
}

TEST(ColourMap, GrowsDarkerAllTheWaySoThatGreyPrintsRead) {
    for (int i = 0; i < n_steps; ++i) {
        EXPECT_GT(luminance(colour_at(i / 64.0)), luminance(colour_at((i + 1) / 64.0))) << i;
    }
    EXPECT_GT(luminance(colour_at(0)), 0.75);
    EXPECT_LT(luminance(colour_at(1)), 0.05);
}

TEST(ColourMap, NeedsNoColourThatAScreenCannotShow) {
    // A clipped colour would have another luminance than its lightness says (CIE 1976 L*).
    for (int i = 0; i <= n_steps; ++i) {
        const double f = (lab_at(i / 64.0)[0] + 16) / 116;
        constexpr double digits_of_the_matrix = 2e-4;
        EXPECT_NEAR(luminance(colour_at(i / 64.0)), f * f * f, digits_of_the_matrix) << i;
    }
}

TEST(ColourMap, TakesTheEndColourBeyondItsEnds) {
    EXPECT_EQ(colour_at(-3), colour_at(0));
    EXPECT_EQ(colour_at(7), colour_at(1));
    EXPECT_EQ(colour_at(std::numeric_limits<double>::quiet_NaN()), colour_at(0));
    EXPECT_NE(colour_at(0.4), colour_at(0.6));
}

} // namespace
} // namespace flangewright::vtk
