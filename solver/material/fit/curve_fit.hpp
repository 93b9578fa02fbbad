// Hardening laws fitted to points of true stress over true plastic strain.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <span>

namespace flangewright::material {

/// A law with how well it meets the points it was fitted to.
struct CurveFit {
    OtherCurve curve; ///< its grade and source are left to the caller
    double rms = 0; ///< root of the mean square miss, MPa
    double largest = 0; ///< largest miss, MPa
};

/// Points of one curve, of one length.
struct CurvePoints {
    std::vector<double> plastic_strain;
    std::vector<double> stress; ///< true, MPa
};

/// Swift's and Voce's law by least squares, each only if its parameters end within the law's
/// ranges. Units: true plastic strain, true stress in MPa. Source: the laws as in their own files;
/// levenberg-1944 and marquardt-1963 by the matrix library. Fails: leaves a law out.
[[nodiscard]] std::vector<CurveFit> fit_curves(const CurvePoints& points);

} // namespace flangewright::material
