// A ring's flange folded by a wiper and its edge folded once more into a lip, to either side,
// against an independent solid model of the same two bends. Source: in the head lines of
// data/return_bend.csv; no measurement stands behind it.
#include "solver/findings/part_findings.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/return_bend.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/solid_cases.hpp"
#include "tests/support/verification_record.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <ostream>

namespace flangewright {
namespace {

using job::LipSide;

constexpr double deg = std::numbers::pi / 180;

// Chosen before this program had run the case: those of the single bend, and half a degree for the
// angle of a lip that its wiper has passed with play.
constexpr double edge_strain_band = 0.004;
constexpr double thickness_band = 0.01;
constexpr double springback_band = 0.3; // deg
constexpr double angle_band = 0.5; // deg

const support::ReferenceTable& solid() {
    static const support::ReferenceTable table("return_bend");
    return table;
}

struct LipCase {
    LipSide side = LipSide::under_web;
    bool is_ring = true;

    [[nodiscard]] std::string row(const std::string& state) const {
        const std::string way = side == LipSide::under_web ? "under_" : "away_";
        return way + state + (is_ring ? "_finest" : "_straight");
    }
    [[nodiscard]] double of_solid(const std::string& state, const std::string& column) const {
        return solid().of(row(state), column);
    }
    [[nodiscard]] double springback_of_solid(const std::string& angle) const {
        return of_solid("held", angle) - of_solid("released", angle);
    }
    [[nodiscard]] std::string name() const {
        const std::string part = is_ring ? "ring, " : "straight strip, ";
        return part + (side == LipSide::under_web ? "lip under the web" : "lip away from the web");
    }
};

/// The model's part: soft sheet as of A2, wall radius 100 or straight, flat length 26, of which the
/// lip takes 10 past its tangent; its tools stand where the model's do.
job::Job job_of(const LipCase& of) {
    job::Job job = support::solid_job(support::SolidCase::a2, 1.4);
    job.blank.line = of.is_ring ? outline::BendLine::arc(103, 4 * deg, outline::Curve::concave)
                                : outline::BendLine::straight(1);
    job.blank.flange_width = 26;
    job.blank.lip_width = 10;
    const double second_tangent = of.is_ring ? -13.70 : -13.54;
    const double setback = 3 + 1;
    job.blank.flange_depth = 1 - second_tangent + setback;
    job.return_bend = job::ReturnBend{
        .side = of.side, .lip_depth = 10, .nose_radius = 3, .clearance = 1.4, .corner_radius = 3};
    return job;
}

findings::PartFindings look_at(const process::Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(
        piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    );
}

double least_in_lip_bend(const process::Workpiece& piece) {
    const Eigen::VectorXd half = shell::half_thickness(piece.model, piece.state);
    double least = 1;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        const double past = piece.mesh.distance[node] - piece.job.blank.lip_begin();
        if (past >= 0 && past <= 0.5 * std::numbers::pi * 3.5) {
            least = std::min(least, 2 * half[node]);
        }
    }
    return least;
}

struct Found {
    findings::PartFindings held;
    findings::PartFindings released;
    double least_in_bend = 1;
};

Found bend_lip(const LipCase& of) {
    const auto mesh_like = of.is_ring ? support::SolidCase::a2 : support::SolidCase::s1;
    auto made = process::make_workpiece(job_of(of), support::solid_fineness(mesh_like, 16, 12), 1);
    process::Workpiece& piece = *made;
    EXPECT_EQ(process::bend_down(piece, {}, {}, {}).reason, process::StopReason::done);
    process::prepare_step(piece, job::StepKind::return_bend);
    const process::StepReport bent = process::return_bend(piece, {.clamp_gap = 1}, {});
    EXPECT_EQ(bent.reason, process::StopReason::done);
    Found found;
    found.held = look_at(piece);
    found.least_in_bend = least_in_lip_bend(piece);
    const process::StepReport released = process::release(piece, {.holds_web_edge = true}, {});
    EXPECT_EQ(released.reason, process::StopReason::done);
    found.released = look_at(piece);
    return found;
}

// Against the solid. Springback stands above it as that of a single fold does, and more; the lip
// that its wiper has passed with play stands at another angle. Likely reason as there, not tested:
// no stress through the thickness. Each is bounded from both sides.
struct Known {
    LipCase of;
    double lip_angle = 0; // ours less theirs, deg
    double lip_springback = 0;
    double flange_springback = 0;
};

void PrintTo(const Known& known, std::ostream* stream) {
    *stream << known.of.name();
}

constexpr double play = 0.12; // deg, within which it may move with compiler and library

class ReturnBendAgainstSolid : public testing::TestWithParam<Known> {
protected:
    static support::Figure figure() {
        return {
            .table = "solid",
            .check = GetParam().of.name(),
            .source = "return-bend-solid, computed",
            .mesh = "16 round each nose, 12 layers"};
    }
    static void compare(
        const std::string& what, const char* state, const char* column, double ours, double band
    ) {
        support::compare(
            figure().of(what, ours, GetParam().of.of_solid(state, column)),
            {.width = band, .is_absolute = true}
        );
    }
    static void
    compare_known(const std::string& what, double ours, double theirs, double known, double asked) {
        const bool is_missed = std::abs(known) > asked;
        support::Band band{.width = is_missed ? play : asked, .is_absolute = true};
        if (is_missed) {
            band.about = known;
            band.asked = fmt::format("within {} deg", asked);
        }
        support::compare(figure().of(what, ours, theirs), band);
    }
};

TEST_P(ReturnBendAgainstSolid, HeldAndReleased) {
    const Known& known = GetParam();
    const Found found = bend_lip(known.of);
    compare("edge strain", "held", "edge_strain", found.held.edge_strain_most, edge_strain_band);
    compare(
        "edge thickness over that of the blank",
        "held",
        "edge_thickness",
        found.held.stations.front().edge_thickness,
        thickness_band
    );
    compare(
        "least thickness in the lip's bend",
        "held",
        "least_bend2",
        found.least_in_bend,
        thickness_band
    );
    const double lip_held = found.held.lip->angle.mean / deg;
    compare_known(
        "lip angle held, deg",
        lip_held,
        known.of.of_solid("held", "lip_angle"),
        known.lip_angle,
        angle_band
    );
    compare_known(
        "lip springback, deg",
        lip_held - found.released.lip->angle.mean / deg,
        known.of.springback_of_solid("lip_angle"),
        known.lip_springback,
        springback_band
    );
    compare_known(
        "flange springback, deg",
        (found.held.flange_angle.mean - found.released.flange_angle.mean) / deg,
        known.of.springback_of_solid("flange_angle"),
        known.flange_springback,
        springback_band
    );
}

INSTANTIATE_TEST_SUITE_P(
    BothSides,
    ReturnBendAgainstSolid,
    testing::Values(
        Known{{LipSide::under_web, true}, 0, 1.26, 0},
        Known{{LipSide::away_from_web, true}, -0.89, 0.64, 0},
        Known{{LipSide::under_web, false}, 0, 0.45, 0.43},
        Known{{LipSide::away_from_web, false}, 0, 0.47, 0.49}
    )
);

} // namespace
} // namespace flangewright
