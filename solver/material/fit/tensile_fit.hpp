// Everything a tensile test says of a sheet.
#pragma once

#include "solver/material/fit/curve_fit.hpp"
#include "solver/material/fit/elastic_part.hpp"

namespace flangewright::material {

/// What the test can't tell by itself.
struct FitOptions {
    std::optional<double> youngs_modulus; ///< MPa, if it is known
    double poisson_ratio = 0.33; ///< for the elastic part of the width strain
};

/// A number with the range of engineering strain it was taken over.
struct RangedNumber {
    double value = 0;
    StrainRange range;
};

/// Values of one strip. Engineering strains where nothing else is said.
struct TensileFit {
    ElasticPart elastic;
    double tensile_strength = 0; ///< MPa
    std::optional<double> uniform_elongation; ///< at maximum load; empty: the load rose to the end
    double total_elongation = 0; ///< at the end, the elastic part taken off
    std::optional<RangedNumber> n; ///< slope of ln stress over ln plastic strain, both true
    std::optional<RangedNumber> r; ///< width strain over thickness strain, both plastic and true
    CurvePoints points; ///< those the curves were fitted to
    std::vector<CurveFit> curves; ///< best first; may be empty
};

/// Reads all of it off a record. n and r are taken from 10 to 20 % strain, or to the uniform
/// elongation if that is less; from half of that when it is below 15 %. The curves are fitted from
/// the proof stress to maximum load. Units: MPa, strains in -. Source: n after ISO 10275, r after
/// ISO 10113 (regression of the width's plastic strain on the length's, through the origin),
/// elongations after ISO 6892-1; all from memory, to be confirmed. Maximum load: vertex of the
/// parabola through the points within 1 % of it, derived here. Fails: with what is no tensile test.
[[nodiscard]] Result<TensileFit, TestProblem>
fit_tensile_test(const TensileTest& record, const FitOptions& options);

} // namespace flangewright::material
