// The pattern holds each pair of coupled degrees of freedom once, in the lower triangle.
#include "solver/equilibrium/sparse_pattern.hpp"
#include "solver/shell/quad4.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <set>
#include <utility>

namespace flangewright::equilibrium {
namespace {

constexpr int n_dof_per_node = shell::dof_per_node;

std::set<std::pair<int, int>> coupled_by(const std::vector<std::array<int, 4>>& quads) {
    std::set<std::pair<int, int>> pairs;
    for (const std::array<int, 4>& quad : quads) {
        for (const int a : quad) {
            for (const int b : quad) {
                for (int i = 0; i < n_dof_per_node; ++i) {
                    for (int j = 0; j < n_dof_per_node; ++j) {
                        const int row = a * n_dof_per_node + i;
                        const int column = b * n_dof_per_node + j;
                        pairs.emplace(std::max(row, column), std::min(row, column));
                    }
                }
            }
        }
    }
    return pairs;
}

TEST(SparsePattern, HoldsEveryCoupledPairOnce) {
    const support::MappedPatch patch = support::rectangle(3, 2, 3, 2);
    const SparsePattern pattern = make_pattern(patch.quads, 12);
    ASSERT_EQ(pattern.n_dof, 60);
    std::set<std::pair<int, int>> found;
    for (int column = 0; column < pattern.n_dof; ++column) {
        const auto at = static_cast<std::size_t>(column);
        int before = -1;
        for (int k = pattern.column_start[at]; k < pattern.column_start[at + 1]; ++k) {
            const int row = pattern.row[static_cast<std::size_t>(k)];
            EXPECT_GE(row, column);
            EXPECT_GT(row, before); // rising, so none twice
            before = row;
            found.emplace(row, column);
        }
        EXPECT_EQ(pattern.row[static_cast<std::size_t>(pattern.diagonal[at])], column);
    }
    EXPECT_EQ(found, coupled_by(patch.quads));
    EXPECT_EQ(static_cast<int>(found.size()), pattern.n_entries());
}

TEST(SparsePattern, SendsEachElementEntryToItsPlace) {
    const support::MappedPatch patch = support::rectangle(3, 2, 2, 2);
    const SparsePattern pattern = make_pattern(patch.quads, 9);
    std::vector<int> column_of(pattern.row.size());
    for (int column = 0; column < pattern.n_dof; ++column) {
        const auto at = static_cast<std::size_t>(column);
        for (int k = pattern.column_start[at]; k < pattern.column_start[at + 1]; ++k) {
            column_of[static_cast<std::size_t>(k)] = column;
        }
    }
    std::size_t entry = 0;
    for (const std::array<int, 4>& quad : patch.quads) {
        for (int j = 0; j < shell::dof_per_quad; ++j) {
            for (int i = j; i < shell::dof_per_quad; ++i) {
                const auto dof = [&](int k) {
                    return quad[static_cast<std::size_t>(k / n_dof_per_node)] * n_dof_per_node
                        + k % n_dof_per_node;
                };
                const auto place = static_cast<std::size_t>(pattern.element_entries[entry++]);
                EXPECT_EQ(pattern.row[place], std::max(dof(i), dof(j)));
                EXPECT_EQ(column_of[place], std::min(dof(i), dof(j)));
            }
        }
    }
    EXPECT_EQ(entry, pattern.element_entries.size());
}

TEST(SparsePattern, GivesALooseNodeItsDiagonal) {
    const SparsePattern pattern = make_pattern({{0, 1, 2, 3}}, 5);
    EXPECT_EQ(pattern.n_dof, 25);
    EXPECT_EQ(pattern.n_entries(), 20 * 21 / 2 + 5 * 6 / 2);
}

} // namespace
} // namespace flangewright::equilibrium
