// What the mesh leaves open: the rule of the kink, and the slice against solves of its own.
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/mesh_error.hpp"
#include "solver/process/release.hpp"
#include "solver/process/run_job.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

TEST(HalfKink, IsHalfTheSecondDifference) {
    const std::array<double, 5> series{0, 1, 4, 9, 16}; // squares: second difference 2
    for (std::size_t place = 0; place < series.size(); ++place) {
        EXPECT_DOUBLE_EQ(half_kink_at(series, place), 1);
    }
    const std::array<double, 4> straight{1, 3, 5, 7};
    EXPECT_DOUBLE_EQ(half_kink_at(straight, 2), 0);
    EXPECT_DOUBLE_EQ(half_kink_at(std::array<double, 2>{1, 5}, 1), 0);
    EXPECT_DOUBLE_EQ(half_kink_at(std::array<double, 4>{0, 0, 3, 0}, 2), 3); // either way
    EXPECT_DOUBLE_EQ(half_kink_at(std::array<double, 5>{0, 0, 0, 0, 8}, 0), 0); // at its place only
}

TEST(MeshError, TwiceAsFineHalvesEveryElement) {
    const job::Job job = support::small_flange(
        BendLine::arc(60, 0.2, outline::Curve::concave), EndKind::free, EndKind::continues
    );
    const Fineness fineness = fineness_for(job::Accuracy::quick);
    const auto coarse = make_workpiece(job, fineness, 1);
    const auto fine = make_workpiece(job, twice_as_fine(fineness), 1);
    const double ratio = static_cast<double>(fine->model.n_elements()) / coarse->model.n_elements();
    EXPECT_NEAR(ratio, 4, 0.8);
    EXPECT_EQ(fine->model.section.n_layers(), 2 * coarse->model.section.n_layers());
}

findings::PartFindings look_at(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(
        piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    );
}

job::Job quick_slice() {
    job::Job job = support::small_flange(
        BendLine::arc(60, 0.05, outline::Curve::concave), EndKind::continues, EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    return job;
}

// A part one element long that goes on at both ends is its own slice.
TEST(MeshError, OfASliceIsItsDistanceFromAFinerSolve) {
    const job::Job job = quick_slice();
    const auto run = run_job(
        job, {.n_threads = 1, .measure_bare_refactor = false, .estimates_mesh_error = true}, {}
    );
    ASSERT_TRUE(run.has_value());
    ASSERT_TRUE(run->mesh_error.has_value());
    auto fine = make_workpiece(job, twice_as_fine(fineness_for(job.accuracy)), 1);
    ASSERT_EQ(bend_down(*fine, {}, {}, {}).reason, StopReason::done);
    const findings::PartFindings held = look_at(*fine);
    ASSERT_EQ(release(*fine, {}, {}).reason, StopReason::done);
    const double finer_lift = look_at(*fine).web_lift;
    const double found = run->steps[0].findings.thinning_most;
    EXPECT_GE(run->mesh_error->thinning, 0.9 * std::abs(found - held.thinning_most));
    EXPECT_LE(run->mesh_error->thinning, 2 * std::abs(found - held.thinning_most));
    EXPECT_GT(run->mesh_error->springback, 0);
    EXPECT_GT(run->mesh_error->flange_angle, 0);
    EXPECT_NE(run->mesh_error->flange_angle, run->mesh_error->springback);
    EXPECT_LT(run->mesh_error->springback, 0.5 * std::abs(run->steps[1].findings.springback->mean));
    EXPECT_LT(run->mesh_error->edge_strain, 1e-3); // the edge follows from the shape
    const double lift_distance = std::abs(run->steps[1].findings.web_lift - finer_lift);
    ASSERT_GT(lift_distance, 1e-3);
    EXPECT_NEAR(run->mesh_error->web_lift.value(), 4.0 / 3.0 * lift_distance, 0.1 * lift_distance);
}

// A part with a cut end, its figures made up: kinks that no slice knows of.
TEST(MeshError, SeesTheKinksAlongTheLine) {
    const job::Job job =
        support::small_flange(BendLine::straight(6), EndKind::free, EndKind::continues);
    const Workpiece piece = support::small_workpiece(job, 4);
    const auto& lines = piece.mesh.station_lines;
    std::vector<StepResult> steps(2);
    steps[1].kind = job::StepKind::release;
    steps[0].fields.thickness = Eigen::VectorXd::Constant(piece.model.n_nodes(), 0.99);
    steps[0].fields.thickness[lines[0][3]] = 0.90; // thinnest, at the cut end
    steps[0].findings.stations.resize(lines.size());
    steps[0].findings.stations[2].edge_strain = 0.4;
    steps[1].findings.stations.resize(lines.size());
    steps[1].findings.stations[1].springback = 0.6;
    const auto error = estimate_mesh_error(piece, fineness_for(job::Accuracy::quick), steps, {});
    ASSERT_TRUE(error.has_value());
    EXPECT_NEAR(error->thinning, 0.5 * 2 * 0.09, 1e-12); // across the line; along it half as much
    EXPECT_NEAR(error->edge_strain, 0.4, 1e-12);
    EXPECT_NEAR(error->springback, 0.6, 1e-12);
    EXPECT_TRUE(error->web_lift.has_value());
}

// Of a line of several curvatures the slice is taken where the edge strains most: on a straight
// piece hardly any strain is in doubt, at a tight place much is.
TEST(MeshError, OfAMixedLineIsThatOfItsWorstPlace) {
    const job::Job job = support::small_flange(
        BendLine::chain({{8, 0}, {8, 1.0 / 20}}), EndKind::continues, EndKind::continues
    );
    const Workpiece piece = support::small_workpiece(job, 8);
    std::vector<StepResult> steps(1);
    steps[0].fields.thickness = Eigen::VectorXd::Ones(piece.model.n_nodes());
    steps[0].findings.stations.resize(piece.mesh.station_lines.size());
    steps[0].findings.edge_strain_most = 0.3;
    const auto at = [&](double station) {
        steps[0].findings.edge_strain_station = station;
        return estimate_mesh_error(piece, fineness_for(job::Accuracy::quick), steps, {});
    };
    const auto straight = at(2);
    const auto joint = at(8);
    const auto tight = at(14);
    ASSERT_TRUE(straight.has_value() && joint.has_value() && tight.has_value());
    EXPECT_LT(straight->edge_strain, 1e-3);
    EXPECT_GT(tight->edge_strain, 2 * straight->edge_strain);
    EXPECT_NEAR(joint->edge_strain, tight->edge_strain, 1e-3);
    EXPECT_FALSE(tight->web_lift.has_value()) << "the block still holds it";
}

TEST(MeshError, IsNotGivenWhenStoppedOrNotAskedFor) {
    const job::Job job = quick_slice();
    auto piece = make_workpiece(job, fineness_for(job.accuracy), 1);
    std::stop_source source;
    source.request_stop();
    Monitor monitor;
    monitor.stop = source.get_token();
    EXPECT_FALSE(estimate_mesh_error(*piece, fineness_for(job.accuracy), {}, monitor).has_value());
    EXPECT_FALSE(
        run_job(job, {.n_threads = 1, .measure_bare_refactor = false}, {})->mesh_error.has_value()
    );
}

} // namespace
} // namespace flangewright::process
