// A sheet's material in its temper, each value with where it comes from.
#pragma once

#include "solver/material/back_stress.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::material {

/// How far a value can be trusted, best first.
enum class DataGrade { coupon, published, typical, assumed, unknown };

/// The word for a grade as users read it: coupon, published, typical, assumed, unknown.
/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string word_for(DataGrade grade);

/// A value that may be missing, with its origin.
struct Sourced {
    std::optional<double> value;
    DataGrade grade = DataGrade::unknown;
    std::string source;
};

/// Smallest inside bend radius the bend table allows for one thickness.
struct BendLimit {
    double thickness = 0; ///< mm
    double radius_over_thickness = 0;
};

/// Everything the mechanics and the verdict ask of a sheet. MPa, strains in -.
struct SheetMaterial {
    std::string name;
    double youngs_modulus = 0;
    double poisson_ratio = 0;
    std::string law_name;
    LawValues law_values;
    std::shared_ptr<const HardeningLaw> hardening; ///< of the yield surface's size
    DataGrade curve_grade = DataGrade::unknown; ///< of elastic and hardening values
    std::string curve_source;
    std::vector<BackStress> back_stresses; ///< none: hardening is isotropic
    DataGrade back_stress_grade = DataGrade::unknown;
    std::string back_stress_source;
    Sourced uniform_elongation; ///< engineering strain at maximum load
    Sourced total_elongation; ///< engineering strain at break, 50 mm gauge
    std::vector<BendLimit> bend_limits; ///< by growing thickness; empty when no table is known
    DataGrade bend_grade = DataGrade::unknown;
    std::string bend_source;
    std::string note; ///< what the user must know about these data
};

} // namespace flangewright::material
