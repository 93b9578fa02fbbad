#include "io/sheet_page/openings_part.hpp"
#include "io/tables/cut_edge.hpp"
#include "io/tables/station_table.hpp"
#include "io/tables/summary.hpp"
#include "solver/findings/openings.hpp"
#include "tests/support/formed_flange.hpp"
#include "tests/support/opened_strip.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::tables {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;

/// The strip stretched by a tenth along the line.
process::JobResult stretched() {
    process::JobResult result = support::made_up_result();
    result.steps.resize(1);
    result.history.clear();
    process::StepResult& step = result.steps[0];
    step.mesh = std::make_shared<const grid::SheetMesh>(support::opened_strip());
    step.state.positions = step.mesh->positions;
    step.state.positions.row(0) *= 1.1;
    step.fields = {};
    step.findings.openings = findings::find_openings(*step.mesh, step.state.positions);
    return result;
}

TEST(CutEdge, IsTheFreeEdgeInPiecesAndThenTheRims) {
    const process::JobResult result = stretched();
    const grid::SheetMesh& mesh = *result.steps[0].mesh;
    const CutEdge edge = cut_edge(result, 0);
    ASSERT_EQ(edge.lines.size(), mesh.edge_breaks.size() + 1 + mesh.rims.size());
    std::size_t n_nodes = mesh.free_edge.size();
    for (const grid::Rim& rim : mesh.rims) {
        n_nodes += rim.nodes.size();
    }
    EXPECT_EQ(edge.nodes.size(), n_nodes);
    EXPECT_EQ(edge.nodes.front().edge, "free edge");
    const auto is_hole = [](const CutEdgeNode& node) { return node.edge == "hole 1"; };
    const auto first = std::ranges::find_if(edge.nodes, is_hole);
    ASSERT_NE(first, edge.nodes.end());
    const int place = static_cast<int>(first - edge.nodes.begin());
    const auto ring = std::ranges::find_if(edge.lines, [place](const std::vector<int>& line) {
        return line.front() == place;
    });
    ASSERT_NE(ring, edge.lines.end());
    EXPECT_EQ(ring->front(), ring->back()) << "a ring is closed";
    double most = 0;
    for (const CutEdgeNode& node : edge.nodes) {
        most = is_hole(node) ? std::max(most, node.strain) : most;
    }
    EXPECT_NEAR(most, std::log(1.1), 0.005);
}

TEST(CutEdge, OfAPlainPartIsItsFreeEdge) {
    const process::JobResult result = support::made_up_result();
    const CutEdge edge = cut_edge(result, 0);
    ASSERT_EQ(edge.lines.size(), 1U);
    EXPECT_EQ(edge.nodes.size(), result.mesh.free_edge.size());
}

TEST(CutEdge, NamesItsRimsInTheTable) {
    const std::string table = edge_csv(stretched());
    for (const char* name : {",free edge\n", ",hole 1\n", ",notch 1\n", ",tab 1\n"}) {
        EXPECT_THAT(table, HasSubstr(name));
    }
}

TEST(CutEdge, RimsStandInTheSummary) {
    const std::string text = summary_json({}, support::made_up_job(), stretched());
    EXPECT_THAT(
        text, ContainsRegex("\"openings\": .\n +.\n +\"kind\": \"hole\",\n +\"number\": 1")
    );
    EXPECT_THAT(text, HasSubstr("\"diameter_mm\""));
}

TEST(CutEdge, RimsStandOnThePageWithStretchAndDiameter) {
    const std::string part = sheet_page::openings_part({}, stretched());
    EXPECT_THAT(part, HasSubstr("<th scope=\"row\">hole 1</th><td>10.0 %</td>"));
    EXPECT_THAT(part, HasSubstr("10.00 mm to 11.00 mm"));
    EXPECT_EQ(sheet_page::openings_part({}, support::made_up_result()), "");
}

} // namespace
} // namespace flangewright::tables
