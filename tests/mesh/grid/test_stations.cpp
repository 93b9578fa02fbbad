#include "mesh/grid/stations.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace flangewright::grid {
namespace {

using outline::BendLine;
using outline::Curve;

constexpr double rounding = 1e-10;

BlankGrid blank_on(const BendLine& line) {
    BlankGrid blank;
    blank.line = line;
    blank.longest = 6;
    blank.largest_turn = 0.04;
    return blank;
}

bool is_station(const std::vector<double>& stations, double place) {
    return std::ranges::any_of(stations, [place](double station) {
        return std::abs(station - place) < rounding;
    });
}

TEST(Stations, OfOneCurvatureAreEvenAndNoMoreThanNeeded) {
    const BlankGrid blank = blank_on(BendLine::arc(60, 1.5, Curve::concave)); // 37.5 turns
    const std::vector<double> stations = stations_along(blank);
    ASSERT_EQ(stations.size(), 39U);
    for (std::size_t i = 0; i < stations.size(); ++i) {
        EXPECT_EQ(stations[i], 90.0 * static_cast<double>(i) / 38);
    }
    EXPECT_EQ(stations_along(blank_on(BendLine::straight(12))), (std::vector<double>{0, 6, 12}));
}

class StationsOfChains : public testing::TestWithParam<std::vector<outline::Piece>> {};

TEST_P(StationsOfChains, KeepLengthTurnAndNeighboursWithinBounds) {
    const BlankGrid blank = blank_on(BendLine::chain(GetParam()));
    const std::vector<double> stations = stations_along(blank);
    EXPECT_EQ(stations.front(), 0);
    EXPECT_NEAR(stations.back(), blank.line.length(), rounding);
    double before = 0;
    constexpr double quadrature = 1.01; // lengths are summed up over eighths of an element
    for (std::size_t i = 1; i < stations.size(); ++i) {
        const double length = stations[i] - stations[i - 1];
        ASSERT_GT(length, 0);
        EXPECT_LE(length, blank.longest * quadrature);
        double turn = 0;
        for (int k = 0; k < 100; ++k) {
            const double at = stations[i - 1] + length * (k + 0.5) / 100;
            turn += std::abs(blank.line.curvature(at)) * length / 100;
        }
        EXPECT_LE(turn, blank.largest_turn * quadrature);
        if (i > 1) {
            EXPECT_LE(std::max(length / before, before / length), 1.5 + rounding) << stations[i];
        }
        before = length;
    }
}

INSTANTIATE_TEST_SUITE_P(
    Chains,
    StationsOfChains,
    testing::Values(
        std::vector<outline::Piece>{{70, 1.0 / 80}, {30, 0}, {90, -1.0 / 60}},
        std::vector<outline::Piece>{{80, 0}, {3, 1.0 / 10}, {80, 0}},
        std::vector<outline::Piece>{{80, 0}, {0.5, 1.0 / 40}, {80, 0}, {40, -1.0 / 400}},
        std::vector<outline::Piece>{{1, 0}, {1, 1.0 / 50}, {1, -1.0 / 50}, {1, 0}, {20, 1.0 / 30}}
    )
);

TEST(Stations, LieWhereTheCurvatureChanges) {
    const BlankGrid blank = blank_on(BendLine::chain({{71, 1.0 / 80}, {31, 0}, {93, -1.0 / 60}}));
    const std::vector<double> stations = stations_along(blank);
    EXPECT_TRUE(is_station(stations, 71));
    EXPECT_TRUE(is_station(stations, 102));
}

TEST(Stations, DoNotCutOffLessThanHalfAnElement) {
    // An element is 2.4 mm long here.
    const BlankGrid blank = blank_on(BendLine::chain({{1, 0}, {60, 1.0 / 60}, {1, 0}}));
    const std::vector<double> stations = stations_along(blank);
    EXPECT_FALSE(is_station(stations, 1));
    EXPECT_FALSE(is_station(stations, 61));
    const BlankGrid longer = blank_on(BendLine::chain({{2, 0}, {60, 1.0 / 60}, {2, 0}}));
    EXPECT_TRUE(is_station(stations_along(longer), 2));
    EXPECT_TRUE(is_station(stations_along(longer), 62));
}

TEST(Stations, PassOverPiecesMuchShorterThanAnElement) {
    std::vector<outline::Piece> pieces;
    for (int i = 0; i < 60; ++i) {
        pieces.push_back({1, 1.0 / (100 + i)}); // hardly different from one to the next
    }
    const BlankGrid blank = blank_on(BendLine::chain(pieces));
    EXPECT_LT(stations_along(blank).size(), 20U); // 60 mm by 4 to 6 mm
}

} // namespace
} // namespace flangewright::grid
