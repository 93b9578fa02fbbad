// A loose part is trimmed, annealed and heat treated.
#include "solver/process/bend_down.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/release.hpp"
#include "solver/process/run_job.hpp"
#include "solver/process/run_state.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/strip_curvature.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using job::StepKind;
using outline::BendLine;
using outline::Curve;

job::Job with_allowance(job::Job job) {
    job.blank.trim_allowance = 2;
    job.steps = {StepKind::bend_down, StepKind::release, StepKind::trim};
    return job;
}

job::Job slice_job() {
    return support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
}

StepReport settle_loose(Workpiece& piece, StepKind kind) {
    return balance_free(piece, kind, {}, {}, {});
}

TEST(LoosePart, TrimmingASheetWithoutStressMovesNothing) {
    const BendLine line = BendLine::arc(40, 0.3, Curve::concave);
    Workpiece piece = support::small_workpiece(
        with_allowance(support::small_flange(line, EndKind::free, EndKind::free)), 3
    );
    const int n_nodes = piece.mesh.n_nodes();
    cut_allowance(piece);
    EXPECT_LT(piece.mesh.n_nodes(), n_nodes);
    EXPECT_EQ(piece.job.blank.flange_width, 7);
    EXPECT_EQ(piece.mesh.distance.maxCoeff(), 7);
    EXPECT_EQ(settle_loose(piece, StepKind::trim).reason, StopReason::done);
    const Eigen::Matrix3Xd flat = piece.model.start_positions;
    EXPECT_LT((piece.state.positions - flat).norm(), 1e-9);
}

/// Plastic strain p y^2 along the line, without change of volume; y from the web's edge.
void lock_in_quadratic(Workpiece& piece, double p) {
    const double near = 0.25 * (1 + 1 / std::numbers::sqrt3) * (1 + 1 / std::numbers::sqrt3);
    const double far = 0.25 * (1 - 1 / std::numbers::sqrt3) * (1 - 1 / std::numbers::sqrt3);
    const double side = 0.25 * (1 - 1.0 / 3);
    const auto n_layers = static_cast<std::size_t>(piece.model.section.n_layers());
    for (std::size_t e = 0; e < piece.mesh.quads.size(); ++e) {
        const auto y = [&](std::size_t corner) {
            const int node = piece.mesh.quads[e][corner % 4];
            return piece.mesh.distance[node] + piece.job.blank.web_width;
        };
        for (std::size_t point = 0; point < 4; ++point) {
            const double at =
                near * y(point) + side * (y(point + 1) + y(point + 3)) + far * y(point + 2);
            const double along = p * at * at;
            for (std::size_t k = 0; k < n_layers; ++k) {
                piece.state.points[(4 * e + point) * n_layers + k] = {
                    along / 4, 0.75 * along, 0, 0};
            }
        }
    }
}

TEST(LoosePart, ABlankWithoutItsAllowanceEndsAtTheNetEdge) {
    job::Blank blank;
    blank.flange_width = 20;
    blank.flange_widths = outline::Profile({{0, 16}, {50, 20}});
    blank.trim_allowance = 3;
    const job::Blank cut = without_allowance(blank);
    EXPECT_EQ(cut.flange_width, 17);
    EXPECT_EQ(cut.flange_width_at(0), 13);
    EXPECT_EQ(cut.flange_width_at(50), 17);
    EXPECT_EQ(cut.trim_allowance, 0);
    EXPECT_EQ(without_allowance(cut).flange_width, 17);
}

// Closed form (derived here, linear elasticity of a beam): a strip with locked-in strain p y^2 over
// its width w takes the straight line nearest to it, whose slope is p w; cut down to c it is p c.
TEST(LoosePart, TrimmingAStripWithLockedInStressCurvesItByBeamTheory) {
    job::Job job =
        with_allowance(support::small_flange(BendLine::straight(100), EndKind::free, EndKind::free)
        );
    job.blank.trim_allowance = 3.4;
    Workpiece piece = support::small_workpiece(job, 100);
    constexpr double p = 1e-7;
    lock_in_quadratic(piece, p);
    hold_present_shape(piece);
    ASSERT_EQ(settle_loose(piece, StepKind::trim).reason, StopReason::done);
    const double whole = support::edge_curvature(piece);
    cut_allowance(piece);
    ASSERT_EQ(settle_loose(piece, StepKind::trim).reason, StopReason::done);
    const double cut = support::edge_curvature(piece);
    EXPECT_NEAR(std::abs(whole) / (p * 19), 1, 0.01);
    EXPECT_NEAR(std::abs(cut - whole) / (p * 3.4), 1, 0.03); // a small difference of two
}

struct Bent {
    double springback = 0;
    double thickness_in_bend = 0;
};

Bent bend_and_release(Workpiece& piece) {
    EXPECT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    const double held = driven_angle(piece);
    Bent bent;
    bent.thickness_in_bend = shell::recover_fields(piece.model, piece.state).thickness.minCoeff();
    EXPECT_EQ(release(piece, {}, {}).reason, StopReason::done);
    bent.springback = held - driven_angle(piece);
    return bent;
}

Workpiece finer_workpiece(const job::Job& job) {
    Fineness fineness;
    fineness.n_round_nose = 24;
    fineness.longest = 1.0001 * job.blank.line.length();
    auto made = make_workpiece(job, fineness, 1);
    EXPECT_TRUE(made);
    return std::move(*made);
}

// Pulled by 6 % and annealed, a sheet is a narrower and thinner soft one.
TEST(LoosePart, AnnealedSheetBendsLikeFreshSheetOfItsThickness) {
    constexpr double stretch = 1.06;
    const double narrowed = 1 / std::sqrt(stretch);
    Workpiece pulled = finer_workpiece(slice_job());
    pulled.state.positions.row(0) *= stretch;
    pulled.state.positions.row(1) *= narrowed;
    pulled.state.positions.row(2) *= narrowed;
    ASSERT_TRUE(shell::remember_shape(pulled.model, pulled.state, 1));
    soften(pulled, pulled.job.sheet.material);
    EXPECT_LT(pulled.held_by.on_positions.cwiseAbs().maxCoeff(), 1e-9);

    job::Job fresh_job = slice_job();
    fresh_job.blank.line = BendLine::straight(stretch);
    fresh_job.blank.web_width *= narrowed;
    fresh_job.blank.flange_width *= narrowed;
    fresh_job.sheet.thickness *= narrowed;
    fresh_job.drive.clearance /= narrowed;
    Workpiece fresh = finer_workpiece(fresh_job);

    const Bent annealed = bend_and_release(pulled);
    const Bent expected = bend_and_release(fresh);
    EXPECT_NEAR(annealed.springback / expected.springback, 1, 0.005);
    EXPECT_NEAR(annealed.thickness_in_bend / expected.thickness_in_bend, 1, 0.005);
}

TEST(LoosePart, AnnealedFlangeHasNoStressAndStaysWhereItIs) {
    Workpiece piece = support::small_workpiece(slice_job(), 1);
    bend_and_release(piece);
    const auto largest_stress = [&piece] {
        return shell::recover_fields(piece.model, piece.state)
            .stress_outer_face.cwiseAbs()
            .maxCoeff();
    };
    ASSERT_GT(largest_stress(), 20); // MPa, locked in by the bend
    const Eigen::Matrix3Xd before = piece.state.positions;
    soften(piece, piece.job.sheet.material);
    EXPECT_LT(largest_stress(), 1e-6);
    ASSERT_EQ(settle_loose(piece, StepKind::anneal).reason, StopReason::done);
    // What transverse shear held in is let go.
    EXPECT_LT((piece.state.positions - before).colwise().norm().maxCoeff(), 0.01);
    EXPECT_LT(largest_stress(), 1);
}

// Forces and moments alike: without one of them the part would jump when the step begins.
TEST(LoosePart, CutPartIsInBalanceUnderWhatHoldsIt) {
    const BendLine line = BendLine::arc(30, 0.1, Curve::concave); // its edge has stress along it
    Workpiece piece = support::small_workpiece(
        with_allowance(support::small_flange(line, EndKind::continues, EndKind::continues)), 1
    );
    bend_and_release(piece);
    const auto thickness_in_bend = [&piece] {
        const int node = piece.mesh.bend_begin.front() + 2; // within the bend
        return shell::recover_fields(piece.model, piece.state).thickness[node];
    };
    const double before = thickness_in_bend();
    ASSERT_LT(before, 0.99);
    cut_allowance(piece);
    EXPECT_EQ(thickness_in_bend(), before);
    equilibrium::Problem problem = problem_of(piece);
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, piece.node_axes);
    const auto unbalanced = [&](const equilibrium::DeadLoads& loads) {
        problem.loads = loads;
        const equilibrium::Balance balance = piece.system->balance(problem, shape, false);
        return balance.norm / balance.scale;
    };
    EXPECT_GT(unbalanced(equilibrium::DeadLoads::none(piece.model.n_nodes())), 1e-4);
    EXPECT_LT(unbalanced(piece.held_by), 1e-12);
}

TEST(LoosePart, HeatTreatedSheetHasTheNewStrengthAndNoHardeningBehindIt) {
    Workpiece piece = support::small_workpiece(slice_job(), 1);
    bend_and_release(piece);
    material::SheetMaterial hard = piece.job.sheet.material;
    hard.hardening = support::swift(600, 0.02, 0.15);
    piece.job.heat_treated = hard;
    prepare_step(piece, StepKind::heat_treat);
    EXPECT_EQ(piece.model.section.hardening, hard.hardening);
    for (const material::PointMemory& point : piece.state.points) {
        ASSERT_EQ(point.equivalent, 0);
    }
}

job::Job whole_job() {
    job::Job job = with_allowance(support::small_flange(
        BendLine::arc(30, 0.4, Curve::concave), EndKind::free, EndKind::continues
    ));
    job.accuracy = job::Accuracy::quick;
    job.drive.kind = job::DriveKind::leaf;
    job.drive.angle = 1.2;
    job.annealed = job.sheet.material;
    job.steps = {
        StepKind::bend_down,
        StepKind::release,
        StepKind::anneal,
        StepKind::set_on_block,
        StepKind::release,
        StepKind::trim};
    return job;
}

const RunOptions plain{.n_threads = 2, .n_frames = 2, .measure_bare_refactor = false};

// A run left between its steps or on the way of one goes on to the same end.
TEST(LoosePart, RunLeftAnywhereGoesOnToTheSameEnd) {
    std::vector<RunState> kept;
    RunOptions keeping = plain;
    keeping.seconds_between_states = 0;
    keeping.keep_state = [&kept](const RunState& state) { kept.push_back(state); };
    const Result<JobResult> whole = run_job(whole_job(), keeping, {});
    ASSERT_TRUE(whole);
    ASSERT_EQ(whole->steps.size(), whole_job().steps.size());
    EXPECT_EQ(whole->reason, StopReason::done);
    int n_on_the_way = 0;
    for (const RunState& state : kept) {
        if (state.finished.size() < 2) {
            continue; // block and release: test_run_keeper.cpp
        }
        n_on_the_way += state.under_way ? 1 : 0;
        RunOptions going_on = plain;
        going_on.begin_from = &state;
        const Result<JobResult> resumed = run_job(whole_job(), going_on, {});
        ASSERT_TRUE(resumed);
        EXPECT_EQ(resumed->steps.back().state.positions, whole->steps.back().state.positions);
        EXPECT_EQ(
            resumed->steps.back().findings.edge_tension_used,
            whole->steps.back().findings.edge_tension_used
        );
    }
    EXPECT_GT(n_on_the_way, 4);
}

TEST(LoosePart, SpringbackIsLeftOutOnceAnotherPartOfTheFlangeIsMeasured) {
    const Result<JobResult> run = run_job(whole_job(), plain, {});
    ASSERT_TRUE(run);
    EXPECT_TRUE(run->steps[1].findings.springback_middle);
    EXPECT_TRUE(run->steps[2].findings.springback_middle); // annealed, not yet cut
    EXPECT_FALSE(run->steps[5].findings.springback_middle);
    EXPECT_FALSE(run->steps[5].findings.stations.front().springback);
}

TEST(LoosePart, StrainUsedCountsFromTheAnneal) {
    const Result<JobResult> run = run_job(whole_job(), plain, {});
    ASSERT_TRUE(run);
    const findings::PartFindings& released = run->steps[1].findings;
    const findings::PartFindings& trimmed = run->steps[5].findings;
    EXPECT_EQ(released.edge_tension_used, released.edge_tension_most);
    ASSERT_GT(trimmed.edge_tension_most, 0.02);
    constexpr double elastic = 0.002; // yield stress over Young's modulus, and a margin
    EXPECT_LT(std::abs(trimmed.edge_tension_used), elastic);
    EXPECT_LT(trimmed.bend_strain_used, elastic);
    // Nothing moved between the steps; annealed, the sheet is thinner by its elastic strain.
    EXPECT_NEAR(*run->steps[2].angle_before, released.flange_angle_middle.mean, 1e-6);
    // The narrower part's edge is nearer to the bend and stretched less.
    EXPECT_LT(trimmed.edge_tension_most, released.edge_tension_most);
    EXPECT_LT(run->steps[5].mesh->n_nodes(), run->steps[1].mesh->n_nodes());
}

} // namespace
} // namespace flangewright::process
