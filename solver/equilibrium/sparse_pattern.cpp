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

using Quads = std::vector<std::array<int, 4>>;
using Neighbours = std::vector<std::set<int>>;

void add_above(std::set<int>& neighbours, const std::array<int, 4>& quad, int node) {
    for (const int other : quad) {
        if (other >= node) {
            neighbours.insert(other);
        }
    }
}

/// Of each node: the nodes it shares an element with, not below itself.
Neighbours find_neighbours(const Quads& quads, int n_nodes) {
    Neighbours neighbours(static_cast<std::size_t>(n_nodes));
    for (int node = 0; node < n_nodes; ++node) {
        neighbours[static_cast<std::size_t>(node)].insert(node);
    }
    for (const std::array<int, 4>& quad : quads) {
        for (const int a : quad) {
            add_above(neighbours[static_cast<std::size_t>(a)], quad, a);
        }
    }
    return neighbours;
}

void add_column(SparsePattern& pattern, int column, const std::set<int>& neighbours) {
    pattern.diagonal.push_back(pattern.column_start.back());
    for (const int node : neighbours) {
        for (int k = 0; k < dof_per_node; ++k) {
            const int row = node * dof_per_node + k;
            if (row >= column) {
                pattern.row.push_back(row);
            }
        }
    }
    pattern.column_start.push_back(pattern.n_entries());
}

/// Degree of freedom of the whole sheet for one of the element.
int dof_of(const std::array<int, 4>& quad, int k) {
    return quad[static_cast<std::size_t>(k / dof_per_node)] * dof_per_node + k % dof_per_node;
}

void add_element(SparsePattern& pattern, const std::array<int, 4>& quad) {
    for (int j = 0; j < dof_per_quad; ++j) {
        for (int i = j; i < dof_per_quad; ++i) {
            const auto [column, row] = std::minmax({dof_of(quad, j), dof_of(quad, i)});
            pattern.element_entries.push_back(entry_of(pattern, row, column));
        }
    }
}

} // namespace

SparsePattern make_pattern(const Quads& quads, int n_nodes) {
    const Neighbours neighbours = find_neighbours(quads, n_nodes);
    SparsePattern pattern;
    pattern.n_dof = n_nodes * dof_per_node;
    pattern.column_start.push_back(0);
    for (int column = 0; column < pattern.n_dof; ++column) {
        const int node = column / dof_per_node;
        add_column(pattern, column, neighbours[static_cast<std::size_t>(node)]);
    }
    pattern.element_entries.reserve(quads.size() * dof_per_quad * (dof_per_quad + 1) / 2);
    for (const std::array<int, 4>& quad : quads) {
        add_element(pattern, quad);
    }
    return pattern;
}

} // namespace flangewright::equilibrium
