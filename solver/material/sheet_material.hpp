// A sheet's material in its temper, each value with where it comes from.
#pragma once

#include "solver/material/back_stress.hpp"
#include "solver/material/yield_law.hpp"

#include <array>
#include <map>
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

/// Plastic strains a curve was fitted on; beyond them it is a guess.
struct StrainRange {
    double least = 0;
    double most = 0;
};

/// The same sheet by another hardening law, to set beside the one that is used.
struct OtherCurve {
    std::string law_name;
    LawValues law_values;
    std::shared_ptr<const HardeningLaw> law;
    std::optional<StrainRange> fitted_to;
    DataGrade grade = DataGrade::unknown;
    std::string source;
};

/// Plastic width strain over thickness strain in tension at 0, 45 and 90 deg to the rolling
/// direction. 1 in all directions: the sheet is the same every way.
struct RValues {
    std::optional<double> r0;
    std::optional<double> r45;
    std::optional<double> r90;
    DataGrade grade = DataGrade::unknown;
    std::string source;
};

/// How the free edge was made, worst first.
enum class EdgeFinish { snipped, sawn, filed, polished };

inline constexpr std::array edge_finishes{
    EdgeFinish::snipped, EdgeFinish::sawn, EdgeFinish::filed, EdgeFinish::polished};

/// The word for a finish as users write it: snipped, sawn, filed, polished.
/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string word_for(EdgeFinish finish);

/// One point of a forming-limit curve, true strains.
struct FormingPoint {
    double minor = 0;
    double major = 0;
};

/// Where the sheet's middle necks on straight strain paths. Says nothing of a cut edge.
struct FormingLimit {
    std::vector<FormingPoint> points; ///< by growing minor strain; may be empty
    DataGrade grade = DataGrade::unknown; ///< of the points
    std::string source;
    Sourced flc0; ///< major true strain where the minor strain is zero
    double direction = 0; ///< of the major strain, from the rolling direction, rad
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
    std::optional<StrainRange> fitted_to; ///< of the hardening law
    std::vector<OtherCurve> other_curves; ///< not used by the mechanics
    std::vector<BackStress> back_stresses; ///< none: hardening is isotropic
    DataGrade back_stress_grade = DataGrade::unknown;
    std::string back_stress_source;
    std::string yield_name = "von_mises"; ///< of the yield law
    LawValues yield_values;
    std::shared_ptr<const YieldLaw> yield; ///< none: von Mises
    DataGrade yield_grade = DataGrade::unknown;
    std::string yield_source;
    Sourced uniform_elongation; ///< engineering strain at maximum load
    Sourced total_elongation; ///< engineering strain at break, 50 mm gauge
    std::vector<BendLimit> bend_limits; ///< by growing thickness; empty when no table is known
    DataGrade bend_grade = DataGrade::unknown;
    std::string bend_source;
    std::optional<RValues> r_values;
    /// Engineering strain along its tangent that the cut edge bears; what is missing is not known.
    std::map<EdgeFinish, Sourced> edge_limits;
    std::optional<FormingLimit> forming_limit;
    std::string own_file; ///< the user's file it comes from; empty: built in or written out
    std::string note; ///< what the user must know about these data
};

} // namespace flangewright::material
