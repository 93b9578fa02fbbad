// Where the stiffness has entries: fixed once per mesh, so that symbolic analysis is done once.
#pragma once

#include <array>
#include <vector>

namespace flangewright::equilibrium {

/// Lower triangle by columns (row >= column), 0-based, of the node-coupled symmetric stiffness.
struct SparsePattern {
    int n_dof = 0;
    std::vector<int> column_start; ///< n_dof + 1
    std::vector<int> row; ///< n_entries
    std::vector<int> diagonal; ///< entry of each diagonal
    /// Per element: entry of each pair i >= j of its 20 x 20 block, column by column.
    std::vector<int> element_entries;

    [[nodiscard]] int n_entries() const { return static_cast<int>(row.size()); }
};

/// Source: none needed. Fails: never.
[[nodiscard]] SparsePattern make_pattern(const std::vector<std::array<int, 4>>& quads, int n_nodes);

} // namespace flangewright::equilibrium
