// Where the nodes on the sides of a window lie: its border, rings about holes, slots of notches.
#pragma once

#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/opening_windows.hpp"
#include "mesh/grid/sheet_mesh.hpp"

#include <vector>

namespace flangewright::grid {

/// The border of a window on a mapped mesh: places of its first and last lines in both ways.
struct WindowPlace {
    int first_station = 0;
    int last_station = 0;
    int first_row = 0;
    int last_row = 0;
};

inline constexpr int new_node = -1;

/// A node on a side of the region: where it lies, and its number in the mapped mesh if it has one.
struct SideNode {
    Eigen::Vector3d position;
    int number = new_node;
};

/// A closed side, corners and the nodes halfway between them in turn.
using Side = std::vector<SideNode>;

/// Rings of nodes about a hole, the rim first: layers that grow off it, where strain changes most,
/// over three quarters of the radius or half of the `metal` round the hole. Units: mm. Source:
/// derived here (docs/theory.md, "Openings"). Fails: never.
[[nodiscard]] std::vector<Side>
rings_of(const BlankGrid& blank, const outline::Hole& hole, double metal);

/// Metal between a hole of a window and its border or the next hole; of the latter half. Units: mm.
/// Source: none needed. Fails: never.
[[nodiscard]] double
metal_round(const BlankGrid& blank, const Window& window, std::size_t hole, const Side& border);

/// The edge of a window with notches, by growing station; empty without notches. Units: mm. Source:
/// as rings_of(). Fails: never.
[[nodiscard]] Side notched_edge(
    const SheetMesh& mapped, const BlankGrid& blank, const Window& window, const WindowPlace& place
);

/// Where each notch of a window ends on that edge, by growing station: the mouth's far corner, or
/// the edge's end for the last. Source: none needed. Fails: never.
struct NotchEnd {
    std::size_t notch = 0;
    std::size_t place = 0;
};
[[nodiscard]] std::vector<NotchEnd>
notch_ends(const BlankGrid& blank, const Window& window, const Side& edge);

/// The window's own border, counter-clockwise, from its first station and row. With notches the
/// last row is `edge`. Source: none needed. Fails: never.
[[nodiscard]] Side border_of(const SheetMesh& mapped, const WindowPlace& at, const Side& edge);

} // namespace flangewright::grid
