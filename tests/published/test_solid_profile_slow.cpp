// Strain and thickness along the section of folded flanges, place by place, against an independent
// solid model of the same sections, held on the block and released.
// Source: in the head lines of data/solid_profile_*.csv.
#include "tests/support/reference_table.hpp"
#include "tests/support/section_profile.hpp"
#include "tests/support/solid_cases.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <string>

namespace flangewright {
namespace {

using support::CurveBand;
using support::SectionProfile;
using support::SolidCase;
using support::SolidFigures;

constexpr double loose = 1.4; // clearance over thickness
constexpr double tight = 1.05;

// Asked: 1 % of the edge strain of these rings (0.147 to 0.194).
constexpr CurveBand hoop_band{.most = 0.0015, .rms = 0.001};
// Asked: the first issue's band of the edge thickness, and half of it over the length. The solid's
// own profiles move by 0.0035 in the bend and 0.002 outside when its mesh is halved.
constexpr CurveBand thickness_band{.most = 0.01, .rms = 0.005};

// Known deviations, each bounded from both sides so that a change either way is seen: the shell
// thins less in the bend (straight, R/t 3: 0.002 instead of 0.015), and in the deep tight ring (A5)
// also in what was bent and straightened again. Likely reason, not tested: no stress through its
// thickness where block and wiper press while it bends. Stretching less down the flange is the same
// thing seen from another side, as plastic flow keeps the volume. To be revised when the shell
// improves.
CurveBand known(double most, double rms) {
    constexpr double play = 0.001; // within which it may move with compiler and library
    return {.most = play, .rms = rms + 0.5 * play, .about = most, .asked = "0.01, RMS 0.005"};
}

/// What is asked of a section, or how it is known to miss that.
struct Bands {
    CurveBand thickness_in_bend = thickness_band;
    CurveBand thickness_outside = thickness_band;
    CurveBand meridional = thickness_band;
};

/// Bend and one thickness on either side of it.
support::Stretch bend_of(const job::Job& job) {
    const double t = job.sheet.thickness;
    const double width = 0.5 * std::numbers::pi * (job.block.nose_radius + 0.5 * t);
    return {-t, width + t};
}

/// The bend and all of the flange: the web, flat and long, would only dilute a mean.
support::Stretch bend_and_flange_of(const job::Job& job) {
    return {-job.sheet.thickness, job.blank.flange_width};
}

support::Stretch all_but(support::Stretch stretch) {
    stretch.is_left_out = !stretch.is_left_out;
    return stretch;
}

class SolidProfile : public testing::Test {
protected:
    void fold(SolidCase of, const std::string& section, double clearance, double friction = 0) {
        job_ = support::solid_job(of, clearance);
        name_ = section;
        found_ = support::run_solid_case(of, {.clearance = clearance, .friction = friction});
        ASSERT_EQ(found_.bend_down.reason, process::StopReason::done);
        ASSERT_EQ(found_.release.reason, process::StopReason::done);
        const support::ReferenceTable table("solid_profile_" + section);
        held_ = support::solid_profile(table, "held");
        released_ = support::solid_profile(table, "released");
    }

    void expect(const Bands& bands) const {
        const support::Stretch bend = bend_of(job_);
        const support::Stretch whole = bend_and_flange_of(job_);
        compare(
            "1 thickness in the bend", &SectionProfile::thickness, bend, bands.thickness_in_bend
        );
        compare(
            "2 thickness outside it",
            &SectionProfile::thickness,
            all_but(bend),
            bands.thickness_outside
        );
        compare("3 strain down the flange", &SectionProfile::meridional, whole, bands.meridional);
    }

    /// Of a straight flange it is nothing in both, by symmetry.
    void expect_hoop(const CurveBand& band = hoop_band) const {
        compare("4 strain along the line", &SectionProfile::hoop, bend_and_flange_of(job_), band);
    }

private:
    void compare(
        const std::string& figure,
        support::Profile SectionProfile::*profile,
        const support::Stretch& where,
        const CurveBand& band
    ) const {
        std::string words = name_;
        std::replace(words.begin(), words.end(), '_', ' ');
        support::compare_curves(
            {.table = "profiles",
             .check = "section " + words,
             .source = "solid-section-reference, computed",
             .figure = figure,
             .mesh = "16 round the nose, 16 layers"},
            support::apart(found_.held.*profile, held_.*profile, where),
            support::apart(found_.released.*profile, released_.*profile, where),
            band
        );
    }

    job::Job job_;
    std::string name_;
    SolidFigures found_;
    SectionProfile held_; // of the solid
    SectionProfile released_;
};

TEST_F(SolidProfile, LooseStraightFlangeThinsLessInTheBendByAKnownAmount) {
    fold(SolidCase::s1, "S1_loose", loose);
    expect({.thickness_in_bend = known(0.0128, 0.0058), .meridional = known(-0.0121, 0.0035)});
}

TEST_F(SolidProfile, LooseGentlyBentStraightFlangeThinsAsTheSolid) {
    fold(SolidCase::s7, "S7_loose", loose);
    expect({});
}

TEST_F(SolidProfile, LooseRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a2, "A2_loose", loose);
    expect({.thickness_in_bend = known(0.016, 0.0114), .meridional = known(-0.0159, 0.0093)});
    expect_hoop();
}

TEST_F(SolidProfile, LooseThinRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a8, "A8_loose", loose);
    expect({.thickness_in_bend = known(0.0147, 0.0114), .meridional = known(-0.0141, 0.0078)});
    expect_hoop();
}

TEST_F(SolidProfile, LooseRubbedStraightFlangeThinsLessInTheBendByAKnownAmount) {
    fold(SolidCase::s1, "S1_loose_mu", loose, 0.15);
    expect({.thickness_in_bend = known(0.0125, 0.0058), .meridional = known(-0.012, 0.0035)});
}

TEST_F(SolidProfile, LooseRubbedRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a2, "A2_loose_mu", loose, 0.15);
    expect({.thickness_in_bend = known(0.016, 0.0115), .meridional = known(-0.0167, 0.0094)});
    expect_hoop();
}

TEST_F(SolidProfile, TightSoftStraightFlangeThinsLessInTheBendByAKnownAmount) {
    fold(SolidCase::s1, "S1_tight", tight);
    expect({.thickness_in_bend = known(0.0127, 0.0078), .meridional = known(-0.0119, 0.0047)});
}

TEST_F(SolidProfile, TightHardStraightFlangeThinsLessInTheBendByAKnownAmount) {
    fold(SolidCase::s3, "S3_tight", tight);
    expect({.thickness_in_bend = known(0.0132, 0.0088), .meridional = known(-0.0134, 0.0053)});
}

TEST_F(SolidProfile, TightRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a2, "A2_tight", tight);
    expect({.thickness_in_bend = known(0.0218, 0.015), .meridional = known(-0.023, 0.0124)});
    expect_hoop();
}

TEST_F(SolidProfile, TightDeepRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a5, "A5_tight", tight);
    expect(
        {.thickness_in_bend = known(0.0216, 0.0159),
         .thickness_outside = known(0.0157, 0.005),
         .meridional = known(-0.0219, 0.0114)}
    );
    expect_hoop();
}

TEST_F(SolidProfile, TightRubbedStraightFlangeThinsLessInTheBendByAKnownAmount) {
    fold(SolidCase::s1, "S1_tight_mu", tight, 0.15);
    expect({.thickness_in_bend = known(0.0128, 0.0081), .meridional = known(-0.0123, 0.0049)});
}

TEST_F(SolidProfile, TightRubbedRingStretchesAsTheSolidAndThinsLessByAKnownAmount) {
    fold(SolidCase::a2, "A2_tight_mu", tight, 0.15);
    expect({.thickness_in_bend = known(0.0239, 0.0144), .meridional = known(-0.0256, 0.0119)});
    expect_hoop();
}

} // namespace
} // namespace flangewright
