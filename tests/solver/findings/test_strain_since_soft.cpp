#include "solver/findings/strain_since_soft.hpp"
#include "solver/findings/verdict.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

constexpr double rounding = 1e-12;

shell::SheetFields fields_with(const grid::SheetMesh& mesh, double outer, double block) {
    shell::SheetFields fields;
    fields.across_outer_face = Eigen::VectorXd::Constant(mesh.n_nodes(), outer);
    fields.across_block_face = Eigen::VectorXd::Constant(mesh.n_nodes(), block);
    return fields;
}

// An edge first stretched by 5 %, made soft, then stretched to 8 %: log strains add up.
TEST(StrainSinceSoft, IsWhatCameAfterTheAnneal) {
    const job::Job job = support::straight_job();
    const grid::SheetMesh mesh = support::flat_blank({});
    Eigen::Matrix3Xd soft = mesh.positions;
    soft.row(0) *= 1.05;
    PartFindings part;
    for (std::size_t i = 0; i < mesh.free_edge.size(); ++i) {
        StationFindings at;
        at.edge_strain = std::log(1.08);
        part.stations.push_back(at);
    }
    part.edge_tension_most = part.edge_tension_used = std::log(1.08);
    const Eigen::VectorXd then = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.2);
    const shell::SheetFields now = fields_with(mesh, 0.23, 0);
    count_from_soft(part, mesh, job, now, {soft, then, then});
    EXPECT_NEAR(part.edge_tension_used, std::log(1.08 / 1.05), rounding);
    EXPECT_NEAR(part.bend_strain_used, 0.03, rounding);
    EXPECT_EQ(part.edge_tension_most, std::log(1.08));
}

// Only the face on the outside of the lip's bend counts there.
TEST(StrainSinceSoft, CountsTheLipsBendOnTheFaceItStretches) {
    job::Job job = support::straight_job();
    const grid::SheetMesh mesh = support::flat_blank({});
    job.blank.flange_width = mesh.distance.maxCoeff();
    job.blank.lip_width = 8;
    PartFindings part;
    part.stations.resize(mesh.free_edge.size());
    part.lip = LipFindings{};
    const Eigen::VectorXd outer_then = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.02);
    const Eigen::VectorXd block_then = Eigen::VectorXd::Constant(mesh.n_nodes(), -0.01);
    const shell::SheetFields now = fields_with(mesh, 0.15, 0.11);
    job.return_bend = job::ReturnBend{.side = job::LipSide::under_web, .nose_radius = 2};
    count_from_soft(part, mesh, job, now, {mesh.positions, outer_then, block_then});
    EXPECT_NEAR(part.lip->bend_strain_used, 0.13, rounding);
    job.return_bend->side = job::LipSide::away_from_web;
    count_from_soft(part, mesh, job, now, {mesh.positions, outer_then, block_then});
    EXPECT_NEAR(part.lip->bend_strain_used, 0.12, rounding);
}

TEST(StrainSinceSoft, IsWhatTheVerdictWeighs) {
    job::Job job = support::straight_job();
    job.sheet.material.uniform_elongation = {0.10, material::DataGrade::coupon, "a coupon"};
    job.sheet.material.bend_limits = {{1, 0}};
    PartFindings part;
    part.edge_tension_most = std::log(1.12);
    part.edge_tension_used = std::log(1.03);
    const Verdict verdict = judge(job, std::vector{part});
    EXPECT_NEAR(verdict.limits.front().reached, 0.03, rounding);
    EXPECT_NEAR(*verdict.limits.front().share, 0.3, 1e-9);
}

} // namespace
} // namespace flangewright::findings
