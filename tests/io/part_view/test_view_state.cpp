#include "io/part_view/view_state.hpp"
#include "tests/support/formed_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::part_view {
namespace {

TEST(ViewState, EachStepEndsWithItsOwnShapeAndWaysLieBetween) {
    const process::JobResult result = support::made_up_result();
    const job::Job job = support::made_up_job();
    const std::vector<ViewState> only_ends = view_states(job, result, 0);
    ASSERT_EQ(only_ends.size(), 2U) << "ends are never left out";
    EXPECT_EQ(only_ends[0].name, "1 bend-down: on the block");
    EXPECT_EQ(only_ends[1].name, "2 release: released");
    EXPECT_EQ(only_ends[1].positions, &result.steps[1].state.positions);
    const std::vector<ViewState> all = view_states(job, result, 10'000'000);
    EXPECT_GT(all.size(), 2U);
    EXPECT_EQ(all.back().name, "2 release: released");
    EXPECT_EQ(all.front().name.find("1 bend-down: driven to"), 0U);
}

TEST(ViewState, FiguresStandWhereTheyMeanSomething) {
    const process::JobResult result = support::made_up_result();
    const job::Job job = support::made_up_job();
    const std::vector<ViewState> states = view_states(job, result, 0);
    const grid::SheetMesh& mesh = result.mesh;
    EXPECT_EQ(states[0].of(Field::movement).size(), 0) << "nothing is released yet";
    EXPECT_EQ(states[0].of(Field::web_gap).size(), 0) << "held by the backing";
    EXPECT_EQ(states[1].of(Field::movement).size(), mesh.n_nodes());
    const Eigen::VectorXd& edge = states[1].of(Field::edge_stretch);
    EXPECT_TRUE(std::isfinite(edge(mesh.free_edge.front())));
    EXPECT_TRUE(std::isnan(edge(mesh.web_edge.front())));
    const Eigen::VectorXd& gap = states[1].of(Field::web_gap);
    EXPECT_TRUE(std::isfinite(gap(mesh.web_edge.front())));
    EXPECT_TRUE(std::isnan(gap(mesh.free_edge.front())));
    const double thinnest = result.steps[1].fields.thickness.minCoeff();
    EXPECT_NEAR(
        states[1].of(Field::thinning).maxCoeff(), 100 * (1 - thinnest / job.sheet.thickness), 1e-9
    );
}

TEST(ViewState, AStepWithoutAShapeIsLeftOut) {
    process::JobResult result = support::made_up_result();
    result.steps.back().state.positions.resize(3, 0);
    EXPECT_EQ(view_states(support::made_up_job(), result, 0).size(), 1U);
    result.steps.clear();
    EXPECT_TRUE(view_states(support::made_up_job(), result, 0).empty());
}

} // namespace
} // namespace flangewright::part_view
