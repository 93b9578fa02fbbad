// A hardening law sees one number, the plastic strain, and answers stress and slope.
#pragma once

#include "solver/material/law_parameter.hpp"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace flangewright::material {

/// Flow stress and its slope at one plastic strain.
struct FlowStress {
    double stress = 0; ///< MPa
    double slope = 0; ///< MPa per unit plastic strain
};

/// Isotropic hardening: flow stress over equivalent plastic strain.
class HardeningLaw {
public:
    virtual ~HardeningLaw() = default;
    /// Units: plastic strain in -, stress in MPa. Source: see each law. Fails: never for a
    /// plastic strain >= 0.
    [[nodiscard]] virtual FlowStress at(double plastic_strain) const = 0;
};

/// What one file of solver/material/hardening offers.
struct HardeningEntry {
    std::string name; ///< as written in a case file
    std::string meaning; ///< one line for the user
    std::vector<LawParameter> parameters;
    LawValues example; ///< a sourced set of values, used by the shared tests
    std::string example_source;
    /// Makes the law from values already checked against `parameters`.
    std::shared_ptr<const HardeningLaw> (*make)(const LawValues& values) = nullptr;
    /// What the single ranges can't say (e.g. a table that must rise): the key and the reason, or
    /// nothing.
    std::optional<std::pair<std::string, std::string>> (*objection)(const LawValues& values
    ) = nullptr;
};

/// All laws of the folder, by name. Units: none. Source: the folder itself (generated list).
/// Fails: never.
[[nodiscard]] std::span<const HardeningEntry> hardening_laws();

} // namespace flangewright::material
