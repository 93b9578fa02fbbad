// The straight start of a tensile test: modulus, zero of the strain, 0.2 % proof stress.
#pragma once

#include "solver/material/fit/tensile_test.hpp"

namespace flangewright::material {

/// Where a modulus comes from.
enum class ModulusOrigin { fitted, given, assumed };

/// Elastic start of a record.
struct ElasticPart {
    double modulus = 0; ///< of the sheet, MPa
    ModulusOrigin origin = ModulusOrigin::assumed;
    /// Slope of the record, MPa; the modulus when no straight part was resolved. Lower than the
    /// modulus where the strain has the machine's own give in it.
    double slope = 0;
    double slope_error = 0; ///< standard error of the slope, MPa; 0 when not resolved
    std::size_t n_points = 0; ///< on the straight part; 0 when not resolved
    double first_strain = 0; ///< strain of the record at which the straight part meets zero stress
    double proof_stress = 0; ///< 0.2 %, MPa
    std::size_t proof_point = 0; ///< first point beyond it
};

/// A modulus for sheets of which none is known: aluminium.
inline constexpr double assumed_modulus = 70'000; // MPa

/// Fits the straight part between 10 and 50 % of the proof stress; it counts as resolved with five
/// points or more and a standard error of the slope of 3 % at most. `given` is the sheet's modulus
/// if it is known, MPa; it is used even where the record shows another.
/// Units: as TensileTest. Source: proof stress and straight part after ISO 6892-1, from memory, to
/// be confirmed; the limits of "resolved" are our own choice. Fails: with a problem when the record
/// never leaves the 0.2 % line, or the slope is no metal's.
[[nodiscard]] Result<ElasticPart, TestProblem>
elastic_part(const TensileTest& test, std::optional<double> given);

} // namespace flangewright::material
