#include "mesh/grid/opened_region.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::grid {
namespace {

struct Frame {
    BlankGrid blank;
    SheetMesh mapped;
    Window window;
    WindowPlace place;
};

/// A web of square cells with a hole in its middle; the window is all of the web.
Frame web_with_hole(double diameter) {
    Frame frame;
    frame.blank.line = outline::BendLine::straight(40);
    frame.blank.web_width = 40;
    frame.blank.bend_width = 4;
    frame.blank.flange_width = 10;
    frame.blank.widest = 5;
    frame.blank.longest = 5;
    frame.mapped = *mesh_blank(frame.blank);
    frame.blank.openings.holes = {{20, -20, diameter, false}};
    frame.window = {{0, 40}, {-40, 0}, 5, {0}, {}};
    int rows = 0;
    for (const int node : frame.mapped.station_lines[0]) {
        rows += frame.mapped.distance[node] < -1e-9 ? 1 : 0;
    }
    const int n_stations = static_cast<int>(frame.mapped.station_lines.size());
    frame.place = {0, n_stations - 1, 0, rows - rows % 2};
    return frame;
}

TEST(OpenedRegion, KeepsTheNodesOfItsBorder) {
    const Frame frame = web_with_hole(12);
    const auto region = fill_window(frame.mapped, frame.blank, frame.window, frame.place);
    ASSERT_TRUE(region.has_value()) << region.error().object;
    std::vector<bool> is_used(static_cast<std::size_t>(frame.mapped.n_nodes()), false);
    for (const std::array<int, 4>& quad : region->quads) {
        for (const int node : quad) {
            if (node < frame.mapped.n_nodes()) {
                is_used[static_cast<std::size_t>(node)] = true;
            }
        }
    }
    for (const std::vector<int>& line : frame.mapped.station_lines) {
        EXPECT_TRUE(is_used[static_cast<std::size_t>(line.front())]);
        EXPECT_TRUE(
            is_used[static_cast<std::size_t>(line[static_cast<std::size_t>(frame.place.last_row)])]
        );
    }
}

TEST(OpenedRegion, HoleThatIsAllButTheWindowIsMeshed) {
    const Frame frame = web_with_hole(30);
    EXPECT_TRUE(fill_window(frame.mapped, frame.blank, frame.window, frame.place).has_value());
}

TEST(OpenedRegion, HoleThatDoesNotFitIsToldWithItsPlace) {
    const Frame frame = web_with_hole(44);
    const auto region = fill_window(frame.mapped, frame.blank, frame.window, frame.place);
    ASSERT_FALSE(region.has_value());
    EXPECT_FALSE(region.error().remedy.empty());
}

} // namespace
} // namespace flangewright::grid
