// Flanges folded by a wiper and let go, against an independent solid model of the same sections.
// Source: in the head lines of data/solid_section.csv; its springback is uncertain by about 5 %.
#include "tests/support/reference_table.hpp"
#include "tests/support/solid_cases.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace flangewright {
namespace {

using support::SolidCase;
using support::SolidFigures;

constexpr double loose = 1.4; // clearance over thickness
constexpr double tight = 1.05;

// Bands of the first issue, over the solid model.
constexpr double edge_strain_band = 0.004;
constexpr double edge_thickness_band = 0.01;
constexpr double springback_band_a2 = 0.3; // deg
constexpr double angle_held_band = 0.3; // deg, what the fit of the angle leaves open

// Known deviations: springback over that of the solid model, measured with 16 elements round the
// nose and 16 layers, each bounded from both sides so that a change either way is seen. Straight
// flanges and the deep ring stand above the solid, most in the tight channel. Likely reason, not
// tested: the solid is squeezed and sheared between nose and wiper, which a shell without stress
// through its thickness cannot be. Bands asked and missed: S1 tight 2.4 +- 0.3 deg, S3 tight 4.6 +-
// 0.45, A5 tight 4.35 +- 0.5. S1 loose lies 0.006 deg within 0.3 deg at this mesh and outside it at
// twice the mesh (4.24 deg), so it counts as missed. To be revised when the shell improves.
struct KnownExcess {
    double measured; // over 1
    double play; // within which it may move with compiler and library
    const char* asked;
};
constexpr KnownExcess excess_s1_loose{0.076, 0.03, "0.3 deg at every mesh"};
constexpr KnownExcess excess_s7_loose{0.092, 0.03, "6.7 deg within 0.3"};
constexpr KnownExcess excess_a8_loose{0.054, 0.03, "5.76 deg within 0.3"};
constexpr KnownExcess excess_s1_tight{0.246, 0.05, "2.4 deg within 0.3"};
constexpr KnownExcess excess_s3_tight{0.329, 0.05, "4.6 deg within 0.45"};
constexpr KnownExcess excess_a5_tight{0.168, 0.05, "4.35 deg within 0.5"};

const support::ReferenceTable& solid() {
    static const support::ReferenceTable table("solid_section");
    return table;
}

SolidFigures run(SolidCase of, double clearance, double friction = 0) {
    return support::run_solid_case(of, {.clearance = clearance, .friction = friction});
}

class SolidSection : public testing::Test {
protected:
    static void record(const SolidFigures& found, const std::string& row) {
        const auto put = [](const std::string& key, double value) {
            RecordProperty(key, std::to_string(value));
        };
        put("springback_deg", found.springback);
        put("springback_over_solid", found.springback / solid().of(row, "springback"));
        put("angle_held_less_solid_deg", found.angle_held - solid().of(row, "angle_held"));
        put("edge_strain_less_solid", found.edge_strain - solid().of(row, "edge_strain"));
        put("edge_thickness_less_solid", found.edge_thickness - solid().of(row, "edge_thickness"));
        put("least_thickness_less_solid",
            found.least_thickness - solid().of(row, "least_thickness"));
        put("penetration_mm", found.bend_down.penetration);
    }
    static void expect_done(const SolidFigures& found) {
        ASSERT_EQ(found.bend_down.reason, process::StopReason::done);
        ASSERT_EQ(found.release.reason, process::StopReason::done);
        EXPECT_LT(found.bend_down.penetration, 0.01); // 1 % of the thickness
    }
    static SolidFigures run_held_as_solid(SolidCase of, double clearance, const std::string& row) {
        const SolidFigures found = run(of, clearance);
        record(found, row);
        expect_done(found);
        EXPECT_NEAR(found.angle_held, solid().of(row, "angle_held"), angle_held_band);
        return found;
    }
    static void expect_edge(const SolidFigures& found, const std::string& row) {
        support::compare(
            figure_of(row).of("edge strain", found.edge_strain, solid().of(row, "edge_strain")),
            {.width = edge_strain_band, .is_absolute = true}
        );
        support::compare(
            figure_of(row).of(
                "edge thickness over that of the blank",
                found.edge_thickness,
                solid().of(row, "edge_thickness")
            ),
            {.width = edge_thickness_band, .is_absolute = true}
        );
    }
    static void
    expect_excess(const SolidFigures& found, const std::string& row, const KnownExcess& known) {
        support::compare(
            figure_of(row).of(springback, found.springback, solid().of(row, "springback")),
            {.width = known.play, .about = known.measured, .asked = known.asked}
        );
    }
    static void expect_springback(const SolidFigures& found, const std::string& row, double play) {
        support::compare(
            figure_of(row).of(springback, found.springback, solid().of(row, "springback")),
            {.width = play, .is_absolute = true}
        );
    }
    static support::Figure figure_of(std::string row) {
        std::replace(row.begin(), row.end(), '_', ' ');
        return {
            .table = "solid",
            .check = "section " + row,
            .source = "solid-section-reference, computed",
            .mesh = "16 round the nose, 16 layers"};
    }
    static constexpr const char* springback = "springback, deg";
};

TEST_F(SolidSection, LooseStraightFlangeSpringsBackAboveTheSolidByAKnownShare) {
    const SolidFigures found = run_held_as_solid(SolidCase::s1, loose, "S1_loose");
    expect_excess(found, "S1_loose", excess_s1_loose);
}

TEST_F(SolidSection, LooseRingStretchesAndSpringsBackAsTheSolid) {
    const SolidFigures found = run_held_as_solid(SolidCase::a2, loose, "A2_loose");
    expect_springback(found, "A2_loose", springback_band_a2);
    expect_edge(found, "A2_loose");
}

// Two sections chosen before either model had been run on them, with the bands of the ring A2: edge
// strain and thickness hold, springback misses 0.3 deg in both and the angle held in one.
TEST_F(SolidSection, LooseThickStraightFlangeSpringsBackAboveTheSolidByAKnownShare) {
    const SolidFigures found = run_held_as_solid(SolidCase::s7, loose, "S7_loose");
    expect_excess(found, "S7_loose", excess_s7_loose);
}

TEST_F(SolidSection, LooseThinRingStretchesAsTheSolidAndSpringsBackAboveItByAKnownShare) {
    const SolidFigures found = run(SolidCase::a8, loose);
    record(found, "A8_loose");
    expect_done(found);
    support::compare(
        figure_of("A8_loose")
            .of("angle held, deg", found.angle_held, solid().of("A8_loose", "angle_held")),
        {.width = 0.15, .about = -0.35, .asked = "within 0.3", .is_absolute = true}
    );
    expect_excess(found, "A8_loose", excess_a8_loose);
    expect_edge(found, "A8_loose");
}

// What friction adds is judged, not the sum: the straight flange stands above the solid without it.
// The solid's web is also rubbed by the backing, ours is not.
TEST_F(SolidSection, FrictionAddsToSpringbackAsInTheSolid) {
    constexpr double band = 0.1; // deg; the solid's own springback is uncertain by twice that
    for (const auto& [of, row] :
         {std::pair(SolidCase::s1, "S1_loose"), std::pair(SolidCase::a2, "A2_loose")}) {
        const SolidFigures without = run(of, loose);
        const SolidFigures with = run(of, loose, 0.15);
        const std::string rubbed = std::string(row) + "_mu";
        record(with, rubbed);
        expect_done(with);
        EXPECT_NEAR(with.angle_held, solid().of(rubbed, "angle_held"), angle_held_band);
        support::compare(
            figure_of(rubbed).of(
                "springback that friction 0.15 adds, deg",
                with.springback - without.springback,
                solid().of(rubbed, "springback") - solid().of(row, "springback")
            ),
            {.width = band, .is_absolute = true}
        );
        if (of == SolidCase::a2) {
            expect_edge(with, rubbed);
        }
    }
}

TEST_F(SolidSection, TightRingStretchesAndSpringsBackAsTheSolid) {
    const SolidFigures found = run_held_as_solid(SolidCase::a2, tight, "A2_tight");
    expect_springback(found, "A2_tight", springback_band_a2);
    expect_edge(found, "A2_tight");
}

TEST_F(SolidSection, TightSoftStraightFlangeSpringsBackAboveTheSolidByAKnownShare) {
    const SolidFigures found = run_held_as_solid(SolidCase::s1, tight, "S1_tight");
    expect_excess(found, "S1_tight", excess_s1_tight);
}

TEST_F(SolidSection, TightHardStraightFlangeSpringsBackAboveTheSolidByAKnownShare) {
    const SolidFigures found = run_held_as_solid(SolidCase::s3, tight, "S3_tight");
    expect_excess(found, "S3_tight", excess_s3_tight);
}

TEST_F(SolidSection, TightDeepRingStretchesAsTheSolidAndSpringsBackAboveItByAKnownShare) {
    const SolidFigures found = run_held_as_solid(SolidCase::a5, tight, "A5_tight");
    expect_edge(found, "A5_tight");
    expect_excess(found, "A5_tight", excess_a5_tight);
}

} // namespace
} // namespace flangewright
