#include "io/tables/error_bars.hpp"

#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

TEST(ErrorBars, AreEmptyWhenNothingIsKnown) {
    const ErrorBars bars = error_bars({});
    EXPECT_FALSE(bars.springback || bars.edge_strain || bars.thinning || bars.web_lift);
    EXPECT_EQ(bars.meaning, "");
}

TEST(ErrorBars, OfMeshAndScatterGoTogetherAsSquares) {
    process::JobResult result;
    result.mesh_error = {
        .springback = 0.03, .flange_angle = 0.01, .edge_strain = 0.003, .thinning = 0.01};
    EXPECT_EQ(error_bars(result).meaning, "mesh");
    EXPECT_DOUBLE_EQ(*error_bars(result).springback, 0.03);
    EXPECT_DOUBLE_EQ(*error_bars(result).flange_angle, 0.01);
    EXPECT_FALSE(error_bars(result).web_lift) << "the block holds the part";
    result.mesh_error->web_lift = 0.15;
    result.scatter = process::ScatterBand{};
    result.scatter->total = {
        .springback = 0.04,
        .flange_angle = 0.04,
        .edge_strain = 0.004,
        .thinning = 0,
        .web_lift = 0.2};
    EXPECT_EQ(error_bars(result).meaning, "mesh and scatter");
    EXPECT_DOUBLE_EQ(*error_bars(result).springback, 0.05);
    EXPECT_DOUBLE_EQ(*error_bars(result).edge_strain, 0.005);
    EXPECT_DOUBLE_EQ(*error_bars(result).web_lift, 0.25);
    result.mesh_error.reset();
    EXPECT_EQ(error_bars(result).meaning, "scatter");
    EXPECT_DOUBLE_EQ(*error_bars(result).springback, 0.04);
    EXPECT_DOUBLE_EQ(*error_bars(result).web_lift, 0.2);
}

} // namespace
} // namespace flangewright::tables
