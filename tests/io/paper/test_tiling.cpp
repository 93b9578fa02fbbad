#include "io/paper/tiling.hpp"

#include <gtest/gtest.h>

namespace flangewright::paper {
namespace {

constexpr double rounding = 1e-9;

bool holds(const Extent& window, const Eigen::Vector2d& at) {
    return (at.array() >= window.low.array() - rounding).all()
        && (at.array() <= window.high.array() + rounding).all();
}

TEST(Tiling, PutsASmallDrawingInTheMiddleOfOnePage) {
    const Tiling tiling = tiles_for({{10, 20}, {110, 80}}, a4());
    ASSERT_EQ(tiling.tiles.size(), 1U);
    EXPECT_TRUE(tiling.registers.empty());
    const Extent& window = tiling.tiles.front().window;
    EXPECT_NEAR(0.5 * (window.low.x() + window.high.x()), 60, rounding);
    EXPECT_NEAR(0.5 * (window.low.y() + window.high.y()), 50, rounding);
    EXPECT_NEAR(tiling.page_width, 210, rounding);
}

TEST(Tiling, LaysThePageOnItsSideWhereThatTakesFewer) {
    const Tiling tiling = tiles_for({{0, 0}, {270, 100}}, a4());
    EXPECT_EQ(tiling.tiles.size(), 1U);
    EXPECT_NEAR(tiling.page_width, 297, rounding);
    EXPECT_NEAR(tiles_for({{0, 0}, {250, 100}}, letter()).page_width, 279.4, rounding);
}

TEST(Tiling, CoversTheDrawingWithPagesThatOverlapByAsMuchAsIsSaid) {
    const Extent drawn{{-300, -40}, {520, 460}};
    const Tiling tiling = tiles_for(drawn, a4());
    ASSERT_EQ(static_cast<int>(tiling.tiles.size()), tiling.n_rows * tiling.n_columns);
    ASSERT_GT(tiling.n_rows, 1);
    ASSERT_GT(tiling.n_columns, 1);
    const Tile& first = tiling.tiles.front(); // upper left
    const Tile& last = tiling.tiles.back();
    EXPECT_LE(first.window.low.x(), drawn.low.x());
    EXPECT_GE(first.window.high.y(), drawn.high.y());
    EXPECT_GE(last.window.high.x(), drawn.high.x());
    EXPECT_LE(last.window.low.y(), drawn.low.y());
    EXPECT_GT(first.window.low.x(), drawn.low.x() - 2); // the first page is filled first
    EXPECT_LT(first.window.high.y(), drawn.high.y() + 2);
    const Tile& right = tiling.tiles[1];
    EXPECT_EQ(right.column, 2);
    EXPECT_NEAR(first.window.high.x() - right.window.low.x(), page_overlap, rounding);
    const Tile& below = tiling.tiles[static_cast<std::size_t>(tiling.n_columns)];
    EXPECT_EQ(below.row, 2);
    EXPECT_NEAR(below.window.high.y() - first.window.low.y(), page_overlap, rounding);
}

TEST(Tiling, HasEachCrossOnTwoPagesAtLeast) {
    const Tiling tiling = tiles_for({{0, 0}, {700, 600}}, letter());
    ASSERT_FALSE(tiling.registers.empty());
    for (const Register& cross : tiling.registers) {
        int n_pages = 0;
        for (const Tile& tile : tiling.tiles) {
            n_pages += holds(tile.window, cross.at) ? 1 : 0;
        }
        EXPECT_GE(n_pages, 2) << cross.number;
    }
    // Two crosses a seam, else pages could be turned about one.
    const int seams =
        tiling.n_rows * (tiling.n_columns - 1) + tiling.n_columns * (tiling.n_rows - 1);
    EXPECT_EQ(static_cast<int>(tiling.registers.size()), 2 * seams);
}

} // namespace
} // namespace flangewright::paper
