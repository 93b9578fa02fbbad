// A bar pulled and pushed between two plastic strains settles on a loop whose height has a closed
// form, with any number of back stresses. Source: lemaitre-chaboche-1990, section 5.4 (from memory,
// re-derived): size + sum C/gamma tanh(gamma a), a the amplitude of plastic strain.
#include "tests/support/flow_law.hpp"
#include "tests/support/pulled_bar.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace flangewright {
namespace {

struct Metal {
    std::string name;
    std::string source;
    material::PlaneElasticity elasticity;
    double size = 0; ///< of the yield surface, constant, MPa
    std::vector<material::BackStress> shifts;
};

constexpr double mpa_per_ksi = 6.894757;

// Source: bari-hassan-2000, carbon steel tube CS1026, in ksi (from memory).
Metal carbon_steel() {
    return {
        "carbon steel, three back stresses",
        "bari-hassan-2000, from memory",
        {26300 * mpa_per_ksi, 0.302},
        18.8 * mpa_per_ksi,
        {{60000 * mpa_per_ksi, 20000}, {3228 * mpa_per_ksi, 400}, {455 * mpa_per_ksi, 11}}};
}

double closed_form(const Metal& metal, double a) {
    double stress = metal.size;
    for (const material::BackStress& shift : metal.shifts) {
        stress += shift.stiffness / shift.recall * std::tanh(shift.recall * a);
    }
    return stress;
}

// Top of the loop after `n_cycles`, n_steps from top to bottom.
double settled_amplitude(const Metal& metal, double a, int n_cycles, int n_steps) {
    support::Bar bar(support::Point(
        metal.elasticity, std::make_shared<support::PerfectFlow>(metal.size), metal.shifts
    ));
    const double strain = a + closed_form(metal, a) / metal.elasticity.youngs_modulus;
    double top = 0;
    for (int cycle = 0; cycle < n_cycles; ++cycle) {
        bar.pull_slowly(-strain, n_steps);
        top = bar.pull_slowly(strain, n_steps);
    }
    return top;
}

TEST(CyclicBar, SettlesOnTheLoopOfTheClosedForm) {
    const Metal metal = carbon_steel();
    for (const double a : {0.002, 0.01}) {
        for (const int n_steps : {50, 500}) {
            support::compare_finest(
                n_steps == 500,
                {.table = "cyclic",
                 .check = metal.name + ", plastic strain +-" + std::to_string(a).substr(0, 5),
                 .source = "lemaitre-chaboche-1990, closed form, metal: " + metal.source,
                 .figure = "stress amplitude of the settled loop, MPa",
                 .mesh = std::to_string(n_steps) + " steps in half a cycle",
                 .reference = closed_form(metal, a),
                 .measured = settled_amplitude(metal, a, 12, n_steps)},
                {.width = 0.005}
            );
        }
    }
}

// The opposite claim: the first pull ends elsewhere, by what reversals add to it.
TEST(CyclicBar, FirstPullEndsBelowTheSettledLoop) {
    const Metal metal = carbon_steel();
    support::Bar bar(support::Point(
        metal.elasticity, std::make_shared<support::PerfectFlow>(metal.size), metal.shifts
    ));
    const double strain = 0.01 + closed_form(metal, 0.01) / metal.elasticity.youngs_modulus;
    const double first = bar.pull_slowly(strain, 500);
    const double tensile = metal.size + material::steady_back_stress(metal.shifts, 0.01).stress;
    EXPECT_NEAR(first / tensile, 1, 0.005);
    EXPECT_LT(first, 0.995 * closed_form(metal, 0.01));
}

} // namespace
} // namespace flangewright
