// Whole steps with the yield law of a rolled sheet, on small coarse flanges.
#include "solver/process/bend_down.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/release.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

constexpr double degree = std::numbers::pi / 180;

job::Job strip(EndKind end) {
    job::Job job = support::small_flange(BendLine::straight(2), EndKind::continues, end);
    job.drive.angle = 60 * degree;
    return job;
}

Workpiece bent(const job::Job& job, int n_along, bool is_released) {
    Workpiece piece = support::small_workpiece(job, n_along);
    EXPECT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    if (is_released) {
        EXPECT_EQ(release(piece, {}, {}).reason, StopReason::done);
    }
    return piece;
}

double distance_between(const Workpiece& a, const Workpiece& b) {
    return (a.state.positions - b.state.positions).cwiseAbs().maxCoeff();
}

constexpr double rounding = 1e-9; // mm, after some hundred iterations that are the same

// A release ends at a residual of 1e-5: whether it takes one more iteration may hang on rounding,
// and moves the edge of the flange by some microns.
constexpr double one_iteration = 0.005; // mm

TEST(RolledFlange, WithRValuesOfOneIsTheVonMisesFlange) {
    const job::Job plain = strip(EndKind::free);
    const Workpiece held = bent(plain, 2, false);
    const Workpiece released = bent(plain, 2, true);
    ASSERT_GT(distance_between(held, released), 0.1);
    for (const char* name : {"iso_hill48", "iso_m2"}) {
        job::Job job = plain;
        job.sheet.material.yield = support::yield_set(name);
        job.sheet.rolling_direction = 0.4; // makes no difference
        EXPECT_LT(distance_between(bent(job, 2, false), held), rounding) << name;
        EXPECT_LT(distance_between(bent(job, 2, true), released), one_iteration) << name;
    }
    job::Job other = plain;
    other.sheet.material.yield = support::yield_set("2024-O_hill48");
    EXPECT_GT(distance_between(bent(other, 2, true), released), 0.01);
}

// A sheet rolled across the line is one rolled along it whose r0 and r90 change places and whose
// curve is that of tension across: stress times s, plastic strain over s, s = stress across over
// along.
TEST(RolledFlange, RolledAcrossIsASheetOfOtherNumbersRolledAlong) {
    job::Job across = strip(EndKind::free);
    across.sheet.material.yield = support::hill48(0.65, 0.83, 0.45);
    across.sheet.rolling_direction = 90 * degree;
    const double s = std::sqrt(0.45 * (1 + 0.65) / (0.65 * (1 + 0.45)));
    job::Job along = across;
    along.sheet.rolling_direction = 0;
    const Workpiece expected = bent(across, 2, false);
    EXPECT_GT(distance_between(bent(along, 2, false), expected), 0.001); // the opposite claim
    along.sheet.material.yield = support::hill48(0.45, 0.83, 0.65);
    along.sheet.material.hardening =
        support::swift(330 * std::pow(s, 1.22), 0.0032 / s, 0.22); // s Y(s p)
    EXPECT_LT(distance_between(bent(along, 2, false), expected), rounding);
}

// One element along the line, rows of the flange a third as wide as in the bend.
Workpiece finely_bent(const job::Job& job) {
    Fineness fineness;
    fineness.n_layers = 6;
    fineness.n_round_nose = 6;
    fineness.largest_turn = 1;
    fineness.growth = 1.5;
    fineness.widest_in_flange_ratio = 0.35;
    fineness.longest = 1.0001 * job.blank.line.length();
    auto piece = make_workpiece(job, fineness, 1);
    check(piece.has_value(), "a small flange can be meshed");
    EXPECT_EQ(bend_down(*piece, {}, {}, {}).reason, StopReason::done);
    return std::move(*piece);
}

// Log strain along the edge and thinning, at the points next to it and over all layers.
struct EdgeStrain {
    double along = 0;
    double thinning = 0;
};

EdgeStrain plastic_edge_strain(const Workpiece& piece) {
    const auto n_layers = static_cast<std::size_t>(piece.model.section.n_layers());
    const int edge = piece.mesh.free_edge.front();
    EdgeStrain strain;
    for (std::size_t point = 0; point < 4 * piece.model.quads.size(); ++point) {
        if (piece.model.quads[point / 4][point % 4] == edge) {
            for (std::size_t k = 0; k < n_layers; ++k) {
                const material::PointMemory& memory = piece.state.points[point * n_layers + k];
                strain.along += memory.plastic_mean + memory.plastic_difference;
                strain.thinning += 2 * memory.plastic_mean;
            }
        }
    }
    return strain;
}

// A concave edge is stretched along itself like a tensile bar, and thins by 1/(1 + r) of that.
TEST(RolledFlange, StretchedEdgeThinsLessWithAHigherRValue) {
    double before = 0;
    for (const double r : {2.0, 1.0, 0.5}) {
        job::Job job = support::small_flange(
            BendLine::arc(60, 1 * degree, Curve::concave), EndKind::continues, EndKind::continues
        );
        job.sheet.material.yield = support::hill48(r, r, r);
        const Workpiece piece = finely_bent(job);
        const EdgeStrain edge = plastic_edge_strain(piece);
        // The points lie a fifth of an element off the edge, where the strain across is held a
        // little: with r = 2 7 % off with rows twice as wide, 4 % here, 2 % with half as wide.
        EXPECT_NEAR(edge.thinning / edge.along, 1 / (1 + r), 0.05 / (1 + r)) << r;
        EXPECT_GT(edge.thinning, before) << r;
        before = edge.thinning;
    }
}

TEST(RolledFlange, TakesTheYieldLawOfTheSheetAfterTheFire) {
    job::Job job = strip(EndKind::continues);
    job.sheet.material.yield = support::yield_set("2024-O_hill48");
    Workpiece piece = bent(job, 1, true);
    job.sheet.material.yield = nullptr;
    soften(piece, job.sheet.material);
    EXPECT_EQ(piece.model.section.yield, nullptr);
}

} // namespace
} // namespace flangewright::process
