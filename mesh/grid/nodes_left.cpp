#include "mesh/grid/nodes_left.hpp"

#include "mesh/base/check.hpp"

#include <cstddef>
#include <map>
#include <utility>

namespace flangewright::grid {

std::vector<int> nodes_left(const SheetMesh& before, const SheetMesh& after) {
    std::map<std::pair<double, double>, int> at_place;
    for (int node = 0; node < before.n_nodes(); ++node) {
        at_place[{before.positions(0, node), before.positions(1, node)}] = node;
    }
    std::vector<int> left;
    left.reserve(static_cast<std::size_t>(after.n_nodes()));
    for (int node = 0; node < after.n_nodes(); ++node) {
        const auto found = at_place.find({after.positions(0, node), after.positions(1, node)});
        check(found != at_place.end(), "a cut sheet keeps its nodes");
        left.push_back(found->second);
    }
    return left;
}

} // namespace flangewright::grid
