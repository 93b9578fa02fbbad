// A yield law sees the plane stress in rolling axes and answers the tensile stress that is as close
// to flow: the equivalent stress, with its first and second derivative.
#pragma once

#include "solver/material/law_parameter.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>

namespace flangewright::material {

/// Stress in the plane of the sheet: along the rolling direction, across it, shear. MPa.
using RollingStress = Eigen::Vector3d;

/// Equivalent stress at one stress. Flow follows the gradient, which is the plastic strain rate
/// (along, across, engineering shear) over that of the equivalent plastic strain.
struct YieldPoint {
    double stress = 0; ///< MPa
    Eigen::Vector3d gradient = Eigen::Vector3d::Zero(); ///< -
    Eigen::Matrix3d curvature = Eigen::Matrix3d::Zero(); ///< second derivative, 1/MPa
};

/// Convex, even, and homogeneous of degree one: twice the stress has twice the equivalent stress,
/// the same gradient and half the curvature. At no stress all answers are zero.
class YieldLaw {
public:
    virtual ~YieldLaw() = default;
    /// Equivalent stress alone. Units: MPa. Source: see each law. Fails: never for finite stress.
    [[nodiscard]] virtual double stress(const RollingStress& stress) const = 0;
    /// Units: MPa. Shape: 3, the third is shear counted once. Source, fails: as above.
    [[nodiscard]] virtual YieldPoint at(const RollingStress& stress) const = 0;
};

/// What one file of solver/material/yield offers.
struct YieldEntry {
    std::string name; ///< as written in a case file
    std::string meaning; ///< one line for the user
    std::vector<LawParameter> parameters;
    LawValues example; ///< a sourced set of values, used by the shared tests
    std::string example_source;
    /// Makes the law from values already checked against `parameters` and by `objection`.
    std::shared_ptr<const YieldLaw> (*make)(const LawValues& values) = nullptr;
    /// What the single ranges can't say: the key and the reason, or nothing.
    std::optional<std::pair<std::string, std::string>> (*objection)(const LawValues& values
    ) = nullptr;
};

/// All laws of the folder, by name. Units: none. Source: the folder itself (generated list).
/// Fails: never.
[[nodiscard]] std::span<const YieldEntry> yield_laws();

} // namespace flangewright::material
