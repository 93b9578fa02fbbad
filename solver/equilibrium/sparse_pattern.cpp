#include "solver/equilibrium/sparse_pattern.hpp"

#include "solver/shell/quad4.hpp"

#include <algorithm>
#include <set>

namespace flangewright::equilibrium {

namespace {

using shell::dof_per_node;
using shell::dof_per_quad;

int entry_of(const SparsePattern& pattern, int row, int column) {
    const auto begin = pattern.row.begin() + pattern.column_start[static_cast<std::size_t>(column)];
    const auto end =
        pattern.row.begin() + pattern.column_start[static_cast<std::size_t>(column) + 1];
    return static_cast<int>(std::lower_bound(begin, end, row) - pattern.row.begin());
}

} // namespace

SparsePattern make_pattern(const std::vector<std::array<int, 4>>& quads, int n_nodes) {
    std::vector<std::set<int>> neighbours(static_cast<std::size_t>(n_nodes)); // not below itself
    for (int node = 0; node < n_nodes; ++node) {
        neighbours[static_cast<std::size_t>(node)].insert(node);
    }
    for (const std::array<int, 4>& quad : quads) {
        for (const int a : quad) {
            for (const int b : quad) {
                if (b >= a) {
                    neighbours[static_cast<std::size_t>(a)].insert(b);
                }
            }
        }
    }
    SparsePattern pattern;
    pattern.n_dof = n_nodes * dof_per_node;
    pattern.column_start.push_back(0);
    for (int node = 0; node < n_nodes; ++node) {
        for (int k = 0; k < dof_per_node; ++k) {
            const int column = node * dof_per_node + k;
            for (const int other : neighbours[static_cast<std::size_t>(node)]) {
                for (int j = 0; j < dof_per_node; ++j) {
                    const int row = other * dof_per_node + j;
                    if (row >= column) {
                        pattern.row.push_back(row);
                    }
                }
            }
            pattern.diagonal.push_back(pattern.column_start.back());
            pattern.column_start.push_back(pattern.n_entries());
        }
    }
    pattern.element_entries.reserve(quads.size() * dof_per_quad * (dof_per_quad + 1) / 2);
    for (const std::array<int, 4>& quad : quads) {
        for (int j = 0; j < dof_per_quad; ++j) {
            const int column =
                quad[static_cast<std::size_t>(j / dof_per_node)] * dof_per_node + j % dof_per_node;
            for (int i = j; i < dof_per_quad; ++i) {
                const int row = quad[static_cast<std::size_t>(i / dof_per_node)] * dof_per_node
                    + i % dof_per_node;
                pattern.element_entries.push_back(
                    entry_of(pattern, std::max(row, column), std::min(row, column))
                );
            }
        }
    }
    return pattern;
}

} // namespace flangewright::equilibrium
