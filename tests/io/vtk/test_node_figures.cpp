#include "io/vtk/node_figures.hpp"
#include "mesh/grid/trimmed_mesh.hpp"
#include "solver/findings/verdict.hpp"
#include "tests/support/formed_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

namespace flangewright::vtk {
namespace {

constexpr double rounding = 1e-12;

TEST(NodeFigures, ThinningIsTheShareOfThicknessLost) {
    const job::Job job = support::made_up_job();
    shell::SheetFields fields;
    fields.thickness = Eigen::Vector2d(job.sheet.thickness, 0.9 * job.sheet.thickness);
    EXPECT_NEAR(thinning(job, fields)(0), 0, rounding);
    EXPECT_NEAR(thinning(job, fields)(1), 0.1, rounding);
}

TEST(NodeFigures, SpringbackIsTheMovementSinceTheStepBefore) {
    const process::JobResult result = support::made_up_result();
    const std::optional<Eigen::Matrix3Xd> moved = springback(result, 1);
    ASSERT_TRUE(moved);
    const Eigen::Matrix3Xd difference =
        result.steps[1].state.positions - result.steps[0].state.positions;
    EXPECT_LT((*moved - difference).norm(), rounding);
    EXPECT_GT(moved->norm(), 1);
    EXPECT_FALSE(springback(result, 0)) << "a bend-down has none";
}

TEST(NodeFigures, BlockGapIsTheWebsHeightAndZeroInTheFlange) {
    const support::FlangeShape shape{.lift = 0.5};
    const process::JobResult result = support::made_up_result(shape);
    const Eigen::VectorXd held =
        block_gap(support::made_up_job(shape), result.mesh, result.steps[0]);
    // The made-up sheet thins by parts of a thousandth in the web; its block face lifts by half.
    constexpr double thinned = 1e-3;
    EXPECT_LT(held.cwiseAbs().maxCoeff(), thinned);
    const Eigen::VectorXd free =
        block_gap(support::made_up_job(shape), result.mesh, result.steps[1]);
    const auto& middle = result.mesh.station_lines[result.mesh.station_lines.size() / 2];
    EXPECT_NEAR(free(middle.front()), 0.5, thinned);
    EXPECT_EQ(free(middle.back()), 0);
}

TEST(NodeFigures, ShareUsedAtEdgeAndBendIsTheVerdictsOwn) {
    const process::JobResult result = support::made_up_result();
    const std::optional<Eigen::VectorXd> share = share_used(support::made_up_job(), result, 0);
    ASSERT_TRUE(share);
    double edge = 0;
    for (const int node : result.mesh.free_edge) {
        edge = std::max(edge, (*share)(node));
    }
    EXPECT_NEAR(edge, *result.verdict.limits[0].share, rounding);
    const auto& line = result.mesh.station_lines.front();
    double bend = 0;
    for (const int node : line) {
        bend = std::max(bend, (*share)(node));
    }
    EXPECT_NEAR(bend, *result.verdict.limits[1].share, rounding) << "no edge strain at a cut end";
    EXPECT_GE(share->minCoeff(), 0);
}

TEST(NodeFigures, ShareUsedBetweenEdgeAndBendIsThatOfTheNeckOnceLookedFor) {
    process::JobResult result = support::made_up_result();
    const double share_of_neck = 0.01; // less than the stretch over what an edge bears
    result.steps[0].neck_shares = Eigen::VectorXd::Constant(result.mesh.n_nodes(), share_of_neck);
    const Eigen::VectorXd share = share_used(support::made_up_job(), result, 0).value();
    const auto& middle = result.mesh.station_lines[result.mesh.station_lines.size() / 2];
    const int edge = middle.back();
    EXPECT_NEAR(share(middle[middle.size() - 2]), share_of_neck, rounding);
    EXPECT_GT(share(edge), 0.1) << "a cut edge keeps its own limit";
    result.steps[0].neck_shares(middle[middle.size() - 2]) = 1.5;
    EXPECT_NEAR(
        share_used(support::made_up_job(), result, 0).value()(middle[middle.size() - 2]),
        1.5,
        rounding
    );
}

TEST(NodeFigures, ShareUsedNeedsALimit) {
    process::JobResult result = support::made_up_result();
    for (findings::LimitUse& limit : result.verdict.limits) {
        limit.allowed.reset();
    }
    EXPECT_FALSE(share_used(support::made_up_job(), result, 0));
}

TEST(NodeFigures, ShareUsedCountsFromAnAnneal) {
    const job::Job job = support::made_up_job();
    process::JobResult result = support::made_up_result();
    ASSERT_TRUE(share_used(job, result, 1));
    EXPECT_GT(share_used(job, result, 1)->maxCoeff(), 0.1);
    result.steps.push_back(result.steps[1]);
    result.steps.back().kind = job::StepKind::anneal;
    result.steps.push_back(result.steps[1]);
    result.steps.back().kind = job::StepKind::set_on_block;
    result.steps.back().neck_shares = Eigen::VectorXd::Zero(result.mesh.n_nodes());
    const Eigen::VectorXd unchanged = share_used(job, result, 3).value();
    EXPECT_LT(unchanged.maxCoeff(), rounding) << "nothing was stretched since";
    // Stretched along by 2 %, everywhere alike: the edge's stretch since the anneal is that.
    process::StepResult& last = result.steps.back();
    last.state.positions *= 1.02;
    const double allowed = result.verdict.limits[0].allowed.value();
    const int middle = result.mesh.free_edge[result.mesh.free_edge.size() / 2];
    EXPECT_NEAR(share_used(job, result, 3).value()(middle), 0.02 / allowed, 1e-9);
    // The bend's outer fibre by 3 % more than then.
    const double bend = result.verdict.limits[1].allowed.value();
    const int in_bend = result.mesh.bend_begin.front();
    last.fields.across_outer_face(in_bend) += std::log(1.03);
    EXPECT_NEAR(share_used(job, result, 3).value()(in_bend), 0.03 / bend, 1e-9);
}

/// The part cut at the last row of nodes but one, and what is known at the nodes left.
process::StepResult trimmed(const process::JobResult& result, const process::StepResult& before) {
    const auto& line = result.mesh.station_lines.front();
    const grid::TrimmedMesh cut =
        grid::trim_beyond(result.mesh, result.mesh.distance(line[line.size() - 2]));
    process::StepResult step;
    step.kind = job::StepKind::trim;
    step.mesh = std::make_shared<const grid::SheetMesh>(cut.mesh);
    step.state.positions = before.state.positions(Eigen::all, cut.kept_nodes);
    step.fields.thickness = before.fields.thickness(cut.kept_nodes);
    step.fields.major_mid = before.fields.major_mid(cut.kept_nodes);
    step.fields.across_outer_face = before.fields.across_outer_face(cut.kept_nodes);
    step.fields.across_block_face = before.fields.across_block_face(cut.kept_nodes);
    step.neck_shares = Eigen::VectorXd::Zero(cut.mesh.n_nodes());
    return step;
}

// A trim leaves other nodes; what they were when the sheet was soft is that of their flat place.
TEST(NodeFigures, ShareUsedCountsFromAnAnnealAfterATrimToo) {
    const job::Job job = support::made_up_job();
    process::JobResult result = support::made_up_result();
    result.steps[1].kind = job::StepKind::anneal;
    process::StepResult last = trimmed(result, result.steps[1]);
    ASSERT_LT(last.mesh->n_nodes(), result.mesh.n_nodes());
    result.steps.push_back(last);
    ASSERT_EQ(share_used(job, result, 2).value().size(), last.mesh->n_nodes());
    EXPECT_LT(share_used(job, result, 2)->maxCoeff(), rounding) << "nothing was stretched since";
    // By 2 % along and across since then: the new edge's stretch is that over what an edge bears.
    result.steps[2].state.positions *= 1.02;
    const double allowed = result.verdict.limits[0].allowed.value();
    const Eigen::VectorXd share = share_used(job, result, 2).value();
    const int edge = last.mesh->free_edge[last.mesh->free_edge.size() / 2];
    EXPECT_NEAR(share(edge), 0.02 / allowed, 1e-9);
    EXPECT_LT(last.mesh->distance(edge), result.mesh.distance(result.mesh.free_edge.front()));
    // The bend's outer fibre by 3 % more than then, at one node.
    const int in_bend = last.mesh->bend_begin.back();
    result.steps[2].fields.across_outer_face(in_bend) += std::log(1.03);
    const double bend = result.verdict.limits[1].allowed.value();
    EXPECT_NEAR(share_used(job, result, 2).value()(in_bend), 0.03 / bend, 1e-9);
}

TEST(NodeFigures, ShareUsedOfAPartTrimmedHardIsThatOfItsNodes) {
    const job::Job job = support::made_up_job();
    process::JobResult result = support::made_up_result();
    result.steps.push_back(trimmed(result, result.steps[1]));
    const Eigen::VectorXd before = share_used(job, result, 1).value();
    const Eigen::VectorXd after = share_used(job, result, 2).value();
    constexpr std::size_t in_bend = 20; // of 12 rows of the web and 16 of the bend
    const int bend_before = result.mesh.station_lines.front()[in_bend];
    const int bend_after = result.steps[2].mesh->station_lines.front()[in_bend];
    EXPECT_GT(after(bend_after), 0);
    EXPECT_NEAR(after(bend_after), before(bend_before), rounding);
}

TEST(NodeFigures, ShareUsedWeighsTheThicknessTheDrawingAllows) {
    const job::Job job = support::made_up_job();
    process::JobResult result = support::made_up_result();
    const Eigen::VectorXd thinned = thinning(job, result.steps[1].fields);
    Eigen::Index most = 0;
    ASSERT_GT(thinned.maxCoeff(&most), 0);
    findings::LimitUse& limit = result.verdict.limits.emplace_back();
    limit.place = findings::thickness_place;
    limit.allowed = 0.01 * thinned.maxCoeff();
    EXPECT_NEAR(share_used(job, result, 1).value()(most), 100, 1e-9);
}

} // namespace
} // namespace flangewright::vtk
