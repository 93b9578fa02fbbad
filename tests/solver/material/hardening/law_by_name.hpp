// Makes a law by its case-file name, for the tests of single laws.
#pragma once

#include "solver/material/hardening_law.hpp"

#include <cmath>
#include <stdexcept>

namespace flangewright::material {

inline const HardeningEntry& entry_named(const std::string& name) {
    for (const HardeningEntry& entry : hardening_laws()) {
        if (entry.name == name) {
            return entry;
        }
    }
    throw std::logic_error("no law named " + name);
}

/// Largest engineering stress a law reaches in a tensile test, and the log strain where.
struct MaximumLoad {
    double engineering_stress = 0;
    double log_strain = 0;
};

inline MaximumLoad maximum_load(const HardeningLaw& law) {
    MaximumLoad most;
    for (double strain = 0; strain < 0.6; strain += 1e-4) {
        const double stress = law.at(strain).stress * std::exp(-strain);
        if (stress > most.engineering_stress) {
            most = {stress, strain};
        }
    }
    return most;
}

} // namespace flangewright::material
