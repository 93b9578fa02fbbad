#include "mesh/grid/marked_lines.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::grid {
namespace {

TEST(MarkedLines, CountAndPlaceAreInverse) {
    const LineSpacing spacing({0, 1, 3, 7, 15});
    for (const double place : {0.0, 0.5, 1.0, 2.9, 6.0, 14.9, 15.0}) {
        EXPECT_NEAR(spacing.place_at(spacing.count_at(place)), place, 1e-12);
    }
    EXPECT_DOUBLE_EQ(spacing.count_at(-3), 0);
    EXPECT_DOUBLE_EQ(spacing.count_at(99), 4);
    EXPECT_DOUBLE_EQ(spacing.spacing_at(2), 2); // half of it to either side
}

TEST(MarkedLines, SameMarksGiveTheSameLines) {
    const std::vector<double> lines{0, 1, 3, 7, 15};
    EXPECT_THAT(
        lines_through(LineSpacing(lines), {0, 15}, {}),
        testing::Pointwise(testing::DoubleNear(1e-12), lines)
    );
}

TEST(MarkedLines, MarksAreLinesAndPairedStretchesEven) {
    const LineSpacing spacing({0, 1, 2, 3, 4, 5, 6, 7, 8});
    const std::vector<double> lines =
        lines_through(spacing, {0, 2.4, 3.1, 5.6, 8}, {{{2.4, 5.6}, 9}});
    for (const double mark : {0.0, 2.4, 3.1, 5.6, 8.0}) {
        EXPECT_NE(std::ranges::find(lines, mark), lines.end());
    }
    const auto place = [&](double mark) { return std::ranges::find(lines, mark) - lines.begin(); };
    EXPECT_EQ((place(3.1) - place(2.4)) % 2, 0);
    EXPECT_EQ((place(5.6) - place(3.1)) % 2, 0);
    EXPECT_TRUE(std::ranges::is_sorted(lines));
}

TEST(MarkedLines, PairedStretchIsAsFineAsItAsks) {
    const LineSpacing spacing({0, 4, 8, 12});
    const std::vector<double> lines = lines_through(spacing, {0, 4, 8, 12}, {{{4, 8}, 0.5}});
    EXPECT_EQ(lines.size(), 3U + 1 + 7);
}

TEST(MarkedLines, LinesLieNoFurtherApartThanBeforeByAThird) {
    const LineSpacing spacing({0, 1, 2, 3, 4, 5, 6, 7, 8});
    const std::vector<double> lines = lines_through(spacing, {0, 3.3, 8}, {});
    for (std::size_t i = 1; i < lines.size(); ++i) {
        EXPECT_LT(lines[i] - lines[i - 1], 1.35);
    }
}

} // namespace
} // namespace flangewright::grid
