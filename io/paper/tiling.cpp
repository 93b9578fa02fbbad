#include "io/paper/tiling.hpp"

#include "io/units/length.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::paper {

namespace {

using Eigen::Vector2d;

struct Grid {
    Vector2d page; // size
    Vector2d window; // size of what a page shows
    int n_columns = 1;
    int n_rows = 1;

    [[nodiscard]] int n_pages() const { return n_columns * n_rows; }
    [[nodiscard]] Vector2d step() const { return (window.array() - page_overlap).matrix(); }
    /// Lower left corner of what all pages together show: one page has the drawing in its middle,
    /// of several the first is filled first, so that the words at the drawing's head stay on it.
    [[nodiscard]] Vector2d origin(const Extent& drawn) const {
        const Vector2d shown =
            window + Vector2d((n_columns - 1) * step().x(), (n_rows - 1) * step().y());
        const Vector2d middle = 0.5 * (drawn.low + drawn.high - shown);
        return {
            n_columns > 1 ? drawn.low.x() : middle.x(),
            n_rows > 1 ? drawn.high.y() - shown.y() : middle.y()};
    }
};

int count(double length, double window) {
    constexpr double slack = 1e-9;
    return 1
        + static_cast<int>(
               std::max(0.0, std::ceil((length - window) / (window - page_overlap) - slack))
        );
}

Grid grid_for(const Vector2d& size, const Vector2d& page) {
    Grid grid;
    grid.page = page;
    grid.window = page - Vector2d(2 * page_margin, 2 * page_margin + page_foot);
    grid.n_columns = count(size.x(), grid.window.x());
    grid.n_rows = count(size.y(), grid.window.y());
    return grid;
}

/// Two crosses in each overlap of two pages, away from the other overlaps.
std::vector<Register> registers_of(const Grid& grid, const Vector2d& origin) {
    std::vector<Register> crosses;
    const Vector2d step = grid.step();
    const Vector2d window = grid.window;
    const auto add = [&crosses, &origin](double x, double y) {
        crosses.push_back({origin + Vector2d(x, y), static_cast<int>(crosses.size()) + 1});
    };
    for (int row = 0; row < grid.n_rows; ++row) {
        for (int seam = 1; seam < grid.n_columns; ++seam) {
            for (const double share : {0.75, 0.25}) {
                add(seam * step.x() + 0.5 * page_overlap, row * step.y() + share * window.y());
            }
        }
    }
    for (int column = 0; column < grid.n_columns; ++column) {
        for (int seam = 1; seam < grid.n_rows; ++seam) {
            for (const double share : {0.25, 0.75}) {
                add(column * step.x() + share * window.x(), seam * step.y() + 0.5 * page_overlap);
            }
        }
    }
    return crosses;
}

} // namespace

PageSize a4() {
    return {"A4", 210, 297};
}

PageSize letter() {
    return {"Letter", 8.5 * units::mm_per_inch, 11 * units::mm_per_inch};
}

Tiling tiles_for(const Extent& lines, const PageSize& page) {
    constexpr double round = 1; // mm: half a stroke's width, and a little
    const Vector2d rim(round, round);
    const Extent drawn{lines.low - rim, lines.high + rim};
    const Grid upright = grid_for(drawn.size(), {page.width, page.height});
    const Grid lying = grid_for(drawn.size(), {page.height, page.width});
    const Grid& grid = lying.n_pages() < upright.n_pages() ? lying : upright;
    const Vector2d origin = grid.origin(drawn);
    Tiling tiling;
    tiling.page_width = grid.page.x();
    tiling.page_height = grid.page.y();
    tiling.n_rows = grid.n_rows;
    tiling.n_columns = grid.n_columns;
    for (int row = 1; row <= grid.n_rows; ++row) {
        for (int column = 1; column <= grid.n_columns; ++column) {
            const Vector2d low = origin
                + Vector2d((column - 1) * grid.step().x(), (grid.n_rows - row) * grid.step().y());
            tiling.tiles.push_back({row, column, {low, low + grid.window}});
        }
    }
    tiling.registers = registers_of(grid, origin);
    return tiling;
}

} // namespace flangewright::paper
