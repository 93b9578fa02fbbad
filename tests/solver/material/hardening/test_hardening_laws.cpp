// What every hardening law must do, run over all of the folder.
#include "solver/material/hardening_law.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::material {
namespace {

class EveryHardeningLaw : public ::testing::TestWithParam<std::string> {
protected:
    [[nodiscard]] const HardeningEntry& entry() const {
        for (const HardeningEntry& candidate : hardening_laws()) {
            if (candidate.name == GetParam()) {
                return candidate;
            }
        }
        throw std::logic_error("law vanished");
    }
    [[nodiscard]] std::shared_ptr<const HardeningLaw> example() const {
        return entry().make(entry().example);
    }
};

std::vector<std::string> law_names() {
    std::vector<std::string> names;
    for (const HardeningEntry& entry : hardening_laws()) {
        names.push_back(entry.name);
    }
    return names;
}

// Odd spacing, so that no point falls on the corner of a table.
std::vector<double> strain_grid() {
    std::vector<double> strains;
    for (double strain = 1.3e-4; strain < 1.0; strain *= 1.37) {
        strains.push_back(strain);
    }
    return strains;
}

TEST_P(EveryHardeningLaw, SlopeIsTheDerivativeOfStress) {
    const auto law = example();
    for (const double strain : strain_grid()) {
        // Truncation of a central difference: slope''/6 step^2, far below this for these curves;
        // rounding: 1e-16 * stress / step.
        const double step = 1e-4 * strain;
        const double numeric =
            (law->at(strain + step).stress - law->at(strain - step).stress) / (2 * step);
        const double allowed = 1e-6 * (1 + std::abs(numeric));
        EXPECT_NEAR(law->at(strain).slope, numeric, allowed) << "at plastic strain " << strain;
    }
}

TEST_P(EveryHardeningLaw, StressNeverFalls) {
    const auto law = example();
    double before = law->at(0).stress;
    EXPECT_GT(before, 0);
    for (const double strain : strain_grid()) {
        const double now = law->at(strain).stress;
        EXPECT_GE(now, before) << "at plastic strain " << strain;
        before = now;
    }
    EXPECT_GT(before, 1.05 * law->at(0).stress) << "the example does not harden at all";
}

TEST_P(EveryHardeningLaw, ExampleLiesInItsOwnRanges) {
    ASSERT_FALSE(entry().parameters.empty());
    EXPECT_FALSE(entry().meaning.empty());
    EXPECT_FALSE(entry().example_source.empty());
    EXPECT_EQ(entry().parameters.size(), entry().example.size());
    for (const LawParameter& parameter : entry().parameters) {
        ASSERT_TRUE(entry().example.contains(parameter.name)) << parameter.name;
        EXPECT_FALSE(parameter.meaning.empty()) << parameter.name;
        EXPECT_LT(parameter.lowest, parameter.highest) << parameter.name;
        for (const double value : entry().example.at(parameter.name)) {
            EXPECT_GE(value, parameter.lowest) << parameter.name;
            EXPECT_LE(value, parameter.highest) << parameter.name;
        }
    }
    if (entry().objection != nullptr) {
        EXPECT_FALSE(entry().objection(entry().example).has_value());
    }
}

TEST_P(EveryHardeningLaw, IsFiniteAtTheCornersOfItsRanges) {
    for (const bool high : {false, true}) {
        LawValues values;
        for (const LawParameter& parameter : entry().parameters) {
            const double value = high ? parameter.highest : parameter.lowest;
            values[parameter.name] = parameter.is_list ? std::vector<double>{0, 0.5}
                                                       // a short table
                                                       : std::vector<double>{value};
        }
        const auto law = entry().make(values);
        for (const double strain : {0.0, 1e-6, 0.1, 2.0}) {
            EXPECT_TRUE(std::isfinite(law->at(strain).stress)) << strain;
            EXPECT_TRUE(std::isfinite(law->at(strain).slope)) << strain;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(
    Laws,
    EveryHardeningLaw,
    ::testing::ValuesIn(law_names()),
    [](const ::testing::TestParamInfo<std::string>& law) { return law.param; }
);

} // namespace
} // namespace flangewright::material
