#include "io/tables/station_table.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <numbers>
#include <sstream>

namespace flangewright::tables {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells{""};
    for (const char letter : line) {
        if (letter == ',') {
            cells.emplace_back();
        } else {
            cells.back() += letter;
        }
    }
    return cells;
}

TEST(StationsTable, HasOneRowPerStepAndStation) {
    const process::JobResult result = support::made_up_result();
    const auto lines = lines_of(stations_csv(support::made_up_job(), result));
    ASSERT_EQ(lines.size(), 1 + 2 * result.steps.front().findings.stations.size());
    EXPECT_EQ(
        lines.front(),
        "step,station_mm,flange_angle_deg,springback_deg,edge_strain_log,edge_stretch_percent,"
        "edge_thickness_mm,least_thickness_mm,thinning_percent,flange_depth_mm,web_gap_mm,lip_"
        "angle_deg,lip_depth_mm"
    );
    for (const std::string& line : lines) {
        EXPECT_EQ(cells_of(line).size(), 13U) << line;
    }
}

TEST(StationsTable, GivesSpringbackOnlyOnceReleased) {
    const auto lines = lines_of(stations_csv(support::made_up_job(), support::made_up_result()));
    EXPECT_EQ(cells_of(lines[1])[3], "");
    EXPECT_NE(cells_of(lines.back())[3], "");
}

TEST(StationsTable, GivesTheLipOnceItIsBent) {
    process::JobResult result = support::made_up_result();
    findings::StationFindings& at = result.steps.back().findings.stations.back();
    at.lip_angle = 0.5 * std::numbers::pi;
    at.lip_depth = 8.25;
    const auto lines = lines_of(stations_csv(support::made_up_job(), result));
    EXPECT_EQ(cells_of(lines[1])[11], "");
    EXPECT_EQ(cells_of(lines.back())[11], "90");
    EXPECT_EQ(cells_of(lines.back())[12], "8.25");
}

TEST(StationsTable, LeavesCellsOfUnknownFiguresEmpty) {
    process::JobResult result = support::made_up_result();
    result.steps.front().findings.stations.front().edge_strain =
        std::numeric_limits<double>::quiet_NaN();
    result.steps.front().findings.stations.front().flange_depth =
        std::numeric_limits<double>::infinity();
    const std::string table = stations_csv(support::made_up_job(), result);
    EXPECT_THAT(table, testing::Not(testing::HasSubstr("nan")));
    EXPECT_THAT(table, testing::Not(testing::HasSubstr("inf")));
    EXPECT_EQ(cells_of(lines_of(table)[1])[4], "");
    EXPECT_EQ(cells_of(lines_of(table)[1])[9], "");
}

TEST(EdgeTable, HasOneRowPerStepAndEdgeNode) {
    const process::JobResult result = support::made_up_result();
    const auto lines = lines_of(edge_csv(result));
    ASSERT_EQ(lines.size(), 1 + 2 * result.mesh.free_edge.size());
    const auto middle = cells_of(lines[1 + result.mesh.free_edge.size() / 2]);
    EXPECT_EQ(middle[0], "bend-down");
    EXPECT_EQ(middle[1], "125");
    EXPECT_EQ(middle[4], "-23.2") << "the edge hangs below the block's face";
}

TEST(EdgeTable, BearsAStepWithoutFields) {
    process::JobResult result = support::made_up_result();
    result.steps.back().fields = {};
    const std::vector<std::string> cells = cells_of(lines_of(edge_csv(result)).back());
    ASSERT_EQ(cells.size(), 9U);
    EXPECT_EQ(cells[7], "");
    EXPECT_EQ(cells[8], "free edge");
}

} // namespace
} // namespace flangewright::tables
