// Published coefficients of yield laws, by the names that tests/published/data/yield_over_angle.csv
// gives them. Sources: docs/sources.md; which numbers were read where stands beside each set.
#pragma once

#include "mesh/base/check.hpp"
#include "solver/material/yield_law.hpp"

#include <ostream>
#include <string>
#include <vector>

namespace flangewright::support {

/// A yield law by its name in case files.
inline std::shared_ptr<const material::YieldLaw>
yield_law(const std::string& name, const material::LawValues& values) {
    for (const material::YieldEntry& entry : material::yield_laws()) {
        if (entry.name == name) {
            check(entry.objection == nullptr || !entry.objection(values), "values of a yield law");
            return entry.make(values);
        }
    }
    check(false, "the yield law exists");
    return nullptr;
}

inline std::shared_ptr<const material::YieldLaw> hill48(double r0, double r45, double r90) {
    return yield_law("hill48", {{"r0", {r0}}, {"r45", {r45}}, {"r90", {r90}}});
}

inline std::shared_ptr<const material::YieldLaw>
yld2000(double exponent, const std::vector<double>& alpha) {
    return yield_law("yld2000", {{"exponent", {exponent}}, {"alpha", alpha}});
}

struct YieldSet {
    std::string name;
    std::shared_ptr<const material::YieldLaw> law;

    friend void PrintTo(const YieldSet& set, std::ostream* out) { *out << set.name; }
};

inline std::vector<YieldSet> yield_sets() {
    const std::vector<double> ones(8, 1.0);
    return {
        {"iso_m2", yld2000(2, ones)},
        {"iso_m8", yld2000(8, ones)},
        // barlat-2003, second-hand: a public data file
        {"2090-T3_yld2000",
         yld2000(8, {0.4865, 1.3783, 0.7536, 1.0246, 1.0363, 0.9036, 1.2321, 1.4858})},
        // tian-2017, second-hand: a public data file
        {"6022-T4_yld2000_setA",
         yld2000(8, {0.919, 1.072, 1.204, 1.109, 0.992, 0.892, 0.957, 1.098})},
        // a public script that names no paper
        {"6022-T4_yld2000_setB",
         yld2000(8, {0.95421, 1.027886, 1.053014, 1.088182, 1.008, 0.9754, 0.9068, 1.0493})},
        // r values measured, as the data files of the sets above give them
        {"2090-T3_hill48", hill48(0.2115, 1.5769, 0.6923)},
        {"6022-T4_hill48", hill48(0.80, 0.37, 0.54)},
        // a public script that names no source
        {"2024-O_hill48", hill48(0.65, 0.83, 0.60)},
        {"iso_hill48", hill48(1, 1, 1)},
    };
}

inline std::shared_ptr<const material::YieldLaw> yield_set(const std::string& name) {
    for (const YieldSet& set : yield_sets()) {
        if (set.name == name) {
            return set.law;
        }
    }
    check(false, "the set of coefficients exists");
    return nullptr;
}

} // namespace flangewright::support
