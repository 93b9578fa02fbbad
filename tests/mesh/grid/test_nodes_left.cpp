// After a cut each node is known by its flat place.
#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/nodes_left.hpp"
#include "mesh/grid/trimmed_mesh.hpp"

#include <gtest/gtest.h>

namespace flangewright::grid {
namespace {

SheetMesh mesh_before() {
    BlankGrid blank;
    blank.line = outline::BendLine::arc(60, 0.3, outline::Curve::concave);
    blank.web_width = 10;
    blank.bend_width = 4;
    blank.flange_width = 12.5;
    blank.cut_width = 9;
    return mesh_blank(blank).value_or(SheetMesh{});
}

TEST(NodesLeft, AreThoseTheTrimKept) {
    const SheetMesh mesh = mesh_before();
    const TrimmedMesh trimmed = trim_beyond(mesh, 9);
    ASSERT_LT(trimmed.mesh.n_nodes(), mesh.n_nodes());
    EXPECT_EQ(nodes_left(mesh, trimmed.mesh), trimmed.kept_nodes);
}

TEST(NodesLeft, OfASheetNotCutAreAll) {
    const SheetMesh mesh = mesh_before();
    const std::vector<int> left = nodes_left(mesh, mesh);
    ASSERT_EQ(left.size(), static_cast<std::size_t>(mesh.n_nodes()));
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        EXPECT_EQ(left[static_cast<std::size_t>(node)], node);
    }
}

} // namespace
} // namespace flangewright::grid
