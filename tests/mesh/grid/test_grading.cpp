#include "mesh/grid/grading.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::grid {
namespace {

constexpr double rounding = 1e-9;

BlankGrid blank(double web, double flange) {
    BlankGrid asked;
    asked.web_width = web;
    asked.bend_width = 4;
    asked.flange_width = flange;
    return asked;
}

std::vector<double> widths_of(const BlankGrid& asked) {
    const std::vector<double> distances = distances_across(bands_across(asked));
    std::vector<double> widths;
    for (std::size_t i = 1; i < distances.size(); ++i) {
        widths.push_back(distances[i] - distances[i - 1]);
    }
    return widths;
}

TEST(Grading, BandsLeaveNoGap) {
    const std::vector<Band> bands = bands_across(blank(60, 25));
    EXPECT_EQ(bands.front().begin, -60);
    EXPECT_EQ(bands.back().end, 25);
    for (std::size_t i = 1; i < bands.size(); ++i) {
        EXPECT_NEAR(bands[i].begin, bands[i - 1].end, rounding);
    }
}

TEST(Grading, NeighboursDifferByNoMoreThanTheGrowth) {
    for (const double web : {2.0, 7.3, 60.0, 300.0}) {
        for (const double flange : {7.5, 25.0, 90.0}) {
            const BlankGrid asked = blank(web, flange);
            const std::vector<double> widths = widths_of(asked);
            for (std::size_t i = 1; i < widths.size(); ++i) {
                const double ratio = widths[i] / widths[i - 1];
                EXPECT_LT(std::max(ratio, 1 / ratio), asked.growth + rounding) << web << flange;
            }
        }
    }
}

BlankGrid blank_with_second_bend(double cut) {
    BlankGrid asked = blank(40, 27);
    asked.second_bend_begin = 14;
    asked.second_bend_width = 3;
    asked.n_round_second_nose = 15;
    asked.cut_width = cut;
    return asked;
}

TEST(Grading, SecondBendIsEvenAndBetweenRowsOfItsOwn) {
    for (const double cut : {0.0, 24.0}) {
        const BlankGrid asked = blank_with_second_bend(cut);
        const std::vector<double> distances = distances_across(bands_across(asked));
        const auto is_row = [&](double distance) {
            return std::ranges::any_of(distances, [distance](double at) {
                return std::abs(at - distance) < rounding;
            });
        };
        for (int k = 0; k <= 15; ++k) {
            EXPECT_TRUE(is_row(14 + 0.2 * k)) << k;
        }
        EXPECT_TRUE(is_row(27));
        if (cut > 0) {
            EXPECT_TRUE(is_row(cut));
        }
        EXPECT_NEAR(distances.back(), 27, rounding);
        EXPECT_TRUE(std::ranges::is_sorted(distances));
    }
}

TEST(Grading, FlangeBetweenTwoBendsIsNearlyAsFineAsThey) {
    const BlankGrid asked = blank_with_second_bend(0);
    const std::vector<double> distances = distances_across(bands_across(asked));
    for (std::size_t i = 1; i < distances.size(); ++i) {
        if (distances[i - 1] > 4 - rounding && distances[i] < 14 + rounding) {
            EXPECT_LT(distances[i] - distances[i - 1], asked.growth * 0.2 + rounding);
        }
    }
}

TEST(Grading, WidthsGrowAwayFromTheBendUpToTheWidest) {
    const BlankGrid asked = blank(60, 90);
    const std::vector<double> widths = widths_of(asked);
    EXPECT_NEAR(widths.front(), asked.widest, rounding);
    EXPECT_NEAR(widths.back(), asked.widest, rounding);
    EXPECT_LT(*std::max_element(widths.begin(), widths.end()), asked.widest + rounding);
    EXPECT_NEAR(*std::min_element(widths.begin(), widths.end()), 0.25, rounding);
}

TEST(Grading, WebAndFlangeEachHaveTheirOwnWidest) {
    BlankGrid asked = blank(60, 90);
    asked.widest_in_flange = 0.5;
    const std::vector<double> widths = widths_of(asked);
    EXPECT_NEAR(widths.front(), 3, rounding);
    EXPECT_NEAR(widths.back(), 0.5, rounding);
}

TEST(Grading, BendIsDividedEvenly) {
    const std::vector<double> distances = distances_across(bands_across(blank(60, 25)));
    const auto begin = std::find(distances.begin(), distances.end(), 0.0);
    ASSERT_NE(begin, distances.end());
    for (int k = 0; k <= 16; ++k) {
        EXPECT_NEAR(begin[k], 0.25 * k, rounding);
    }
}

TEST(Grading, FlangeMayEndWithTheBend) {
    const std::vector<double> distances = distances_across(bands_across(blank(60, 4)));
    EXPECT_EQ(distances.back(), 4);
    EXPECT_NEAR(distances[distances.size() - 2], 3.75, rounding);
}

TEST(Grading, RegionNarrowerThanAnElementIsOneElement) {
    const std::vector<double> distances = distances_across(bands_across(blank(0.1, 4.05)));
    EXPECT_EQ(distances[0], -0.1);
    EXPECT_EQ(distances[1], 0);
    EXPECT_NEAR(distances[distances.size() - 2], 4, rounding);
    EXPECT_EQ(distances.back(), 4.05);
}

TEST(Grading, ElementsRoundTheNoseMayBeWiderThanTheWidestElsewhere) {
    BlankGrid asked = blank(9, 12);
    asked.widest = 0.2;
    asked.widest_in_flange = 0.2;
    const std::vector<double> widths = widths_of(asked);
    EXPECT_NEAR(widths.front(), 0.2, rounding);
    EXPECT_NEAR(widths.back(), 0.2, rounding);
}

TEST(Grading, RowsOfATaperedLipStayUpToTheSecondBend) {
    BlankGrid asked = blank_with_second_bend(23);
    asked.flange_widths = outline::Profile({{0, 27}, {60, 24}});
    EXPECT_EQ(row_distance(asked, 17, 60), 17); // the second bend's end
    EXPECT_NEAR(row_distance(asked, 20, 60), 18.5, rounding); // half of what is left of the lip
    EXPECT_NEAR(row_distance(asked, 27, 60), 24, rounding);
    for (const double row : {-5.0, 3.0, 16.0, 19.0, 23.0, 25.0}) {
        EXPECT_NEAR(row_at(asked, row_distance(asked, row, 40), 40), row, rounding) << row;
    }
}

} // namespace
} // namespace flangewright::grid
