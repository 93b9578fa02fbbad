// A fitted test as a material file that case files and the sheet library read.
#pragma once

#include "solver/material/fit/tensile_fit.hpp"

#include <string>

namespace flangewright::tensile {

/// What the file says beside the fit.
struct MaterialFacts {
    std::string name = {}; ///< of the sheet
    std::string source = {}; ///< of the measured values, e.g. "tensile test strip3.csv"
    std::string gauge = {}; ///< "50 mm gauge", or that it was not said
    double poisson_ratio = 0.33;
    bool is_poisson_given = false;
    int direction = 0; ///< of the strip to the rolling direction: 0, 45 or 90 deg
};

/// Text of the file. The best curve is the one that is used, the other stands beside it; what was
/// measured has the grade `coupon`, what was not says so. Units: MPa, per cent. Source: the fit.
/// Fails: InternalError without a curve.
[[nodiscard]] std::string
material_text(const material::TensileFit& fit, const MaterialFacts& facts);

} // namespace flangewright::tensile
