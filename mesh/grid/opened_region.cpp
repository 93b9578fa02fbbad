#include "mesh/grid/opened_region.hpp"

#include "mesh/grid/gmsh_session.hpp"
#include "mesh/grid/quad_shape.hpp"
#include "mesh/outline/polygons.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace flangewright::grid {

namespace {

Region region_of(const std::vector<Side>& sides) {
    Region region;
    for (const Side& side : sides) {
        std::vector<Eigen::Vector3d>& loop = region.loops.emplace_back();
        for (std::size_t i = 0; i < side.size(); i += 2) {
            loop.push_back(side[i].position);
        }
    }
    return region;
}

int nearest_node(const PatchMesh& mesh, const Eigen::Vector3d& place) {
    Eigen::Index nearest = 0;
    (mesh.positions.colwise() - place).colwise().squaredNorm().minCoeff(&nearest);
    return static_cast<int>(nearest);
}

/// The library's node for each node of a side: it halved straight sides, so that is where to look.
std::vector<std::vector<int>>
nodes_of_sides(const PatchMesh& mesh, const std::vector<Side>& sides) {
    std::vector<std::vector<int>> found;
    for (const Side& side : sides) {
        std::vector<int>& nodes = found.emplace_back();
        for (std::size_t i = 0; i < side.size(); ++i) {
            const Eigen::Vector3d halfway =
                0.5 * (side[i - i % 2].position + side[(i + i % 2) % side.size()].position);
            nodes.push_back(nearest_node(mesh, i % 2 == 0 ? side[i].position : halfway));
        }
    }
    return found;
}

OutsideProblem not_filled(const BlankGrid& blank, const Window& window) {
    const double station = window.holes.empty()
        ? blank.openings.notches[window.notches.front()].station
        : blank.openings.holes[window.holes.front()].station;
    return {
        "meshing the blank",
        fmt::format("the elements round the opening at station {:.2f} mm fold over", station),
        "move the opening a little, or report this with the case file"};
}

/// Numbers for nodes as they come: those of the mapped mesh first.
class Numbering {
public:
    Numbering(const SheetMesh& mapped, OpenedRegion& region)
        : next_(mapped.n_nodes()), region_(region) {}

    int number_of(const SideNode& node) {
        return node.number == new_node ? add(node.position) : node.number;
    }
    int add(const Eigen::Vector3d& position) {
        region_.positions.push_back(position);
        return next_++;
    }

private:
    int next_ = 0;
    OpenedRegion& region_;
};

/// Layers of elements between the rings about a hole; gives the numbers of the rim's nodes.
std::vector<int> add_layers(
    OpenedRegion& region,
    const std::vector<Side>& rings,
    const std::vector<int>& outermost,
    Numbering& numbering
) {
    std::vector<int> outer = outermost;
    for (std::size_t ring = rings.size() - 1; ring-- > 0;) {
        std::vector<int> inner;
        for (const SideNode& node : rings[ring]) {
            inner.push_back(numbering.number_of(node));
        }
        for (std::size_t i = 0; i < inner.size(); ++i) {
            const std::size_t next = (i + 1) % inner.size();
            region.quads.push_back({inner[i], outer[i], outer[next], inner[next]});
        }
        outer = inner;
    }
    return outer;
}

/// Meshes between the sides; numbers of the nodes on them.
Result<std::vector<std::vector<int>>>
mesh_between(OpenedRegion& region, const std::vector<Side>& sides, Numbering& numbering) {
    Result<PatchMesh> raw = mesh_region(region_of(sides));
    if (!raw) {
        return tl::unexpected(raw.error());
    }
    std::vector<std::vector<int>> on_sides = nodes_of_sides(*raw, sides);
    const auto n_raw = static_cast<std::size_t>(raw->positions.cols());
    std::vector<bool> is_free(n_raw, true);
    std::vector<int> numbers(n_raw, new_node);
    for (std::size_t s = 0; s < sides.size(); ++s) {
        for (std::size_t i = 0; i < sides[s].size(); ++i) {
            int& node = on_sides[s][i];
            raw->positions.col(node) = sides[s][i].position;
            is_free[static_cast<std::size_t>(node)] = false;
            numbers[static_cast<std::size_t>(node)] = numbering.number_of(sides[s][i]);
            node = numbers[static_cast<std::size_t>(node)];
        }
    }
    turn_counter_clockwise(raw->positions, raw->quads);
    smooth_quads(raw->positions, raw->quads, is_free);
    if (!all_convex(raw->positions, raw->quads)) {
        return tl::unexpected(OutsideProblem{});
    }
    for (std::size_t node = 0; node < n_raw; ++node) {
        if (numbers[node] == new_node) {
            numbers[node] = numbering.add(raw->positions.col(static_cast<Eigen::Index>(node)));
        }
    }
    for (std::array<int, 4> quad : raw->quads) {
        for (int& node : quad) {
            node = numbers[static_cast<std::size_t>(node)];
        }
        region.quads.push_back(quad);
    }
    return on_sides;
}

/// Rims of the notches of a window: the edge is shared out at the mouths' far corners. `border`
/// goes the other way round.
void add_notch_rims(
    OpenedRegion& region, const std::vector<NotchEnd>& ends, const std::vector<int>& along_edge
) {
    std::size_t from = 0;
    for (const NotchEnd& end : ends) {
        Rim rim{Rim::Kind::notch, end.notch, {}};
        for (std::size_t k = from; k <= end.place; ++k) {
            rim.nodes.push_back(along_edge[k]);
        }
        region.rims.push_back(std::move(rim));
        from = end.place;
    }
}

} // namespace

Result<OpenedRegion> fill_window(
    const SheetMesh& mapped, const BlankGrid& blank, const Window& window, const WindowPlace& place
) {
    const Side edge = notched_edge(mapped, blank, window, place);
    std::vector<Side> sides{border_of(mapped, place, edge)};
    std::vector<std::vector<Side>> rings;
    for (const std::size_t i : window.holes) {
        const double metal = metal_round(blank, window, i, sides.front());
        rings.push_back(rings_of(blank, blank.openings.holes[i], std::max(metal, 0.0)));
    }
    for (const std::vector<Side>& about_hole : rings) {
        sides.push_back(about_hole.back());
    }
    if (!outline::are_nested(region_of(sides).loops)) {
        return tl::unexpected(not_filled(blank, window));
    }
    OpenedRegion region;
    Numbering numbering(mapped, region);
    const Result<std::vector<std::vector<int>>> on_sides = mesh_between(region, sides, numbering);
    if (!on_sides) {
        const bool has_words = !on_sides.error().object.empty();
        return tl::unexpected(has_words ? on_sides.error() : not_filled(blank, window));
    }
    for (std::size_t h = 0; h < rings.size(); ++h) {
        region.rims.push_back(
            {Rim::Kind::hole,
             window.holes[h],
             add_layers(region, rings[h], (*on_sides)[h + 1], numbering)}
        );
    }
    const auto first = static_cast<std::size_t>(
        place.last_station - place.first_station + place.last_row - place.first_row
    );
    std::vector<int> along_edge;
    for (std::size_t k = 0; k < edge.size(); ++k) {
        along_edge.push_back(on_sides->front()[first + edge.size() - 1 - k]);
    }
    add_notch_rims(region, notch_ends(blank, window, edge), along_edge);
    return region;
}

} // namespace flangewright::grid
