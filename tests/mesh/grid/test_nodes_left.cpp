// After a cut each node is known by its flat place.
#include "mesh/grid/nodes_left.hpp"
#include "mesh/grid/trimmed_mesh.hpp"
#include "tests/support/blank_to_trim.hpp"

#include <gtest/gtest.h>

namespace flangewright::grid {
namespace {

TEST(NodesLeft, AreThoseTheTrimKept) {
    const SheetMesh mesh = support::blank_to_trim();
    const TrimmedMesh trimmed = trim_beyond(mesh, support::cut_of_blank);
    ASSERT_LT(trimmed.mesh.n_nodes(), mesh.n_nodes());
    EXPECT_EQ(nodes_left(mesh, trimmed.mesh), trimmed.kept_nodes);
}

TEST(NodesLeft, OfASheetNotCutAreAll) {
    const SheetMesh mesh = support::blank_to_trim();
    const std::vector<int> left = nodes_left(mesh, mesh);
    ASSERT_EQ(left.size(), static_cast<std::size_t>(mesh.n_nodes()));
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        EXPECT_EQ(left[static_cast<std::size_t>(node)], node);
    }
}

} // namespace
} // namespace flangewright::grid
