// Where a sheet necks: closed forms and the groove analysis against numbers computed outside this
// program (tests/published/data/swift_hill.csv, groove_*.csv), and which way a turn of the path
// moves the limit.
#include "solver/limits/local_neck.hpp"
#include "solver/limits/necking.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright {
namespace {

using limits::RollingStrain;

constexpr double no_prestrain = 1e-9; // the references' power law has none
constexpr double step_default = 0.02; // limits::GrooveChoice

const std::shared_ptr<const material::YieldLaw> von_mises = support::yield_law("von_mises", {});

support::Figure neck_figure(const std::string& check, const std::string& source) {
    return {.table = "local_neck", .check = check, .source = source, .mesh = "increments .02"};
}

limits::NeckShare
neck_of(double exponent, const std::vector<RollingStrain>& strains, limits::GrooveChoice choice) {
    const auto law = support::swift(1, no_prestrain, exponent);
    return limits::share_to_neck(
        {*law, *von_mises}, limits::stretches_of(*von_mises, strains), choice
    );
}

// Major strain at the neck of a straight path.
double major_at_neck(double exponent, double ratio, const limits::GrooveChoice& choice) {
    return neck_of(exponent, {{1, ratio, 0}}, choice).at_neck / limits::equivalent_per_major(ratio);
}

// Source: swift-1952, hill-1952.
TEST(LocalNeck, ClosedFormsAreWhatAScriptOutsideThisProgramComputed) {
    const support::ReferenceTable table("swift_hill");
    support::Worst swift;
    support::Worst hill;
    for (std::size_t row = 0; row < table.n_rows(); ++row) {
        const double n = table.number(row, "n");
        const double ratio = table.number(row, "ratio");
        swift.add(limits::swift_major_strain(n, 0, ratio), table.number(row, "swift"));
        if (ratio <= 0) {
            hill.add(limits::hill_major_strain(n, 0, ratio), table.number(row, "hill"));
        }
    }
    constexpr double six_digits = 1e-5;
    support::Figure figure = neck_figure("Diffuse neck, n .1 to .3", "swift-1952, second-hand");
    figure.mesh = "closed form";
    support::compare_worst(figure, swift, six_digits);
    figure.check = "Local neck, n .1 to .3";
    figure.source = "hill-1952, second-hand";
    support::compare_worst(figure, hill, six_digits);
}

// Source: groove-references, exact root in plane strain.
TEST(LocalNeck, InPlaneStrainIsTheExactRoot) {
    const support::ReferenceTable table("groove_plane_strain");
    support::Worst usual;
    support::Worst fine;
    for (std::size_t row = 0; row < table.n_rows(); ++row) {
        const double n = table.number(row, "n");
        limits::GrooveChoice choice{.thickness_ratio = table.number(row, "f")};
        usual.add(major_at_neck(n, 0, choice), table.number(row, "major"));
        choice.step = 0.1 * step_default;
        fine.add(major_at_neck(n, 0, choice), table.number(row, "major"));
    }
    support::Figure figure = neck_figure(
        "Groove in plane strain, n .1 to .3, f .98 to .999", "groove-references, exact"
    );
    support::compare_worst(figure, usual, 0.02);
    figure.mesh = "increments .002";
    support::compare_worst(figure, fine, 0.002);
}

// Source: groove-references; stopped there at a ratio of ten, here when no more force is borne.
TEST(LocalNeck, OnTheRightSideIsWhatAScriptOutsideThisProgramComputed) {
    const support::ReferenceTable table("groove_right_side");
    support::Worst usual;
    support::Worst fine;
    for (std::size_t row = 0; row < table.n_rows(); ++row) {
        const double n = table.number(row, "n");
        const double ratio = table.number(row, "ratio");
        limits::GrooveChoice choice{.thickness_ratio = table.number(row, "f")};
        usual.add(major_at_neck(n, ratio, choice), table.number(row, "major"));
        choice.step = 0.1 * step_default;
        fine.add(major_at_neck(n, ratio, choice), table.number(row, "major"));
    }
    support::Figure figure =
        neck_figure("Groove, ratio 0 to 1, n .2 and .226", "groove-references, computed");
    support::compare_worst(figure, usual, 0.01);
    figure.mesh = "increments .002";
    support::compare_worst(figure, fine, 0.005);
}

// A groove ever shallower necks ever nearer to Hill's strain; the rest goes with the root of its
// depth (hutchinson-neale-1978).
TEST(LocalNeck, OfAVanishingGrooveTendsToHills) {
    constexpr double n = 0.2;
    for (const double ratio : {-0.5, -0.25, 0.0}) {
        const double hill = limits::hill_major_strain(n, 0, ratio);
        double gap_before = 1;
        for (const double depth : {1e-2, 1e-3, 1e-4}) {
            const double found =
                major_at_neck(n, ratio, {.thickness_ratio = 1 - depth, .step = 0.002});
            const double gap = 1 - found / hill;
            EXPECT_GT(gap, 0) << ratio << depth;
            EXPECT_LT(gap, 0.45 * gap_before) << ratio << depth;
            gap_before = gap;
            const std::string name = "Groove of depth " + std::to_string(depth).substr(0, 6)
                + " against no groove, ratio " + std::to_string(ratio).substr(0, 5);
            support::Figure figure = neck_figure(name, "hill-1952, second-hand");
            figure.mesh = "increments .002";
            figure = figure.of("major strain", found, hill);
            if (depth == 1e-4) {
                support::compare(figure, {.width = 0.06});
            } else {
                support::show(figure);
            }
        }
    }
}

// Source: graf-hosford-1993, the sense from memory: for plane strain after it, a first stretch in
// equal tension lowers what is left and one in uniaxial tension raises it.
TEST(LocalNeck, AfterATurnOfThePathMovesAsMeasured) {
    constexpr double n = 0.226;
    const limits::GrooveChoice choice;
    const double straight = major_at_neck(n, 0, choice);
    const auto major_after = [&](const RollingStrain& first) {
        const limits::NeckShare neck = neck_of(n, {first, {0.001, 0, 0}}, choice);
        const double begun = limits::flow_along(*von_mises, first).equivalent;
        return first[0] + (neck.at_neck - begun) / limits::equivalent_per_major(0);
    };
    support::Figure figure = neck_figure(
        "Plane strain after a first stretch, n .226, f .99", "graf-hosford-1993, sense"
    );
    const auto show_after = [&](double first, const std::string& kind, double found) {
        support::show(figure.of(
            "major strain, " + std::to_string(first).substr(0, 4) + " in " + kind
                + " tension before, against straight",
            found,
            straight
        ));
    };
    double lower = straight;
    for (const double equal : {0.04, 0.08}) {
        const double found = major_after({equal, equal, 0});
        EXPECT_LT(found, 0.95 * lower) << equal;
        lower = found;
        show_after(equal, "equal", found);
    }
    double higher = straight;
    for (const double along : {0.05, 0.10}) {
        const double found = major_after({along, -0.5 * along, 0});
        EXPECT_GT(found, 1.02 * higher) << along;
        higher = found;
        show_after(along, "uniaxial", found);
    }
}

// A yield surface of exponent 8 lowers the equal biaxial end, which von Mises exaggerates
// (graf-hosford-1993 and others, common knowledge): numbers, not judged beyond the sense.
TEST(LocalNeck, OnASharperYieldSurfaceComesSoonerInEqualTension) {
    const auto law = support::swift(1, no_prestrain, 0.226);
    const std::vector<RollingStrain> strains{{1, 1, 0}};
    const auto major = [&](const material::YieldLaw& yield) {
        const auto path = limits::stretches_of(yield, strains);
        return limits::share_to_neck({*law, yield}, path, {}).at_neck * path.back().rate[0];
    };
    const double round = major(*von_mises);
    const double sharp = major(*support::yield_set("iso_m8"));
    EXPECT_LT(sharp, 0.8 * round);
    support::Figure figure =
        neck_figure("Groove in equal tension, n .226, f .99", "exponent 8 against von Mises");
    support::show(figure.of("major strain", sharp, round));
}

// Source: wang-wan-yan-2012, the sense: a curve that saturates necks sooner than a power-like one
// with the same yield and largest load. Curve of 2024-O of the sheet library, and K, e0, n from it
// by the maximum-load condition (n = p + e0 there).
TEST(LocalNeck, OnACurveThatSaturatesComesSoonerButForPlaneStrain) {
    const auto voce = support::flow_law(
        "voce", {{"yield_stress", {76}}, {"saturation_stress", {229}}, {"rate", {16.6}}}
    );
    const auto power = support::swift(286.7, 0.00013, 0.1486);
    const double largest_load = limits::neck_strain(*voce, 1).value();
    EXPECT_NEAR(limits::neck_strain(*power, 1).value(), largest_load, 1e-3);
    EXPECT_NEAR(power->at(largest_load).stress / voce->at(largest_load).stress, 1, 1e-3);
    const auto major = [&](const material::HardeningLaw& law, double ratio) {
        const std::vector<RollingStrain> strains{{1, ratio, 0}};
        return limits::share_to_neck(
                   {law, *von_mises}, limits::stretches_of(*von_mises, strains), {}
               )
                   .at_neck
            / limits::equivalent_per_major(ratio);
    };
    support::Figure figure =
        neck_figure("Groove, saturating curve against power-like", "wang-wan-yan-2012, sense");
    for (const double ratio : {-0.5, 0.0, 0.5}) {
        const double saturating = major(*voce, ratio);
        const double rising = major(*power, ratio);
        EXPECT_LT(saturating, (ratio == 0 ? 1.1 : 0.85) * rising) << ratio;
        const std::string name = "major strain, ratio " + std::to_string(ratio).substr(0, 4);
        support::show(figure.of(name, saturating, rising));
    }
}

} // namespace
} // namespace flangewright
