// The chart of a sheet's stress-strain curves, as they were fitted and as they go on.
#pragma once

#include "io/vtk/picture_text.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::chart {

/// One hardening law. True plastic strain, true stress in MPa.
struct DrawnCurve {
    std::string name; ///< e.g. "voce (used)"
    std::string parameters; ///< in words, at the chart's foot
    std::function<double(double)> stress;
    double fitted_from = 0; ///< full line from here
    double fitted_to = 0; ///< to here, dashed beyond; equal: dashed all along
};

/// What is drawn. Strains are true and plastic, stresses true and in MPa.
struct CurveChart {
    vtk::PictureText text;
    std::vector<DrawnCurve> curves; ///< one or two, the one that is used first
    std::vector<double> measured_strain; ///< points of a test; may be empty
    std::vector<double> measured_stress;
    std::optional<double> uniform_strain; ///< at maximum load
    std::string uniform_words; ///< beside its mark
};

/// Where the strain axis ends: half as far again as the curves were fitted or the load rose, at
/// least to 5 %. Units: true plastic strain. Source: none needed. Fails: never.
[[nodiscard]] double last_strain(const CurveChart& chart);

/// Bytes of a PNG, 1600 by 1000; empty when the picture library gave none. Units: as CurveChart.
/// Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string curve_chart(const CurveChart& chart);

} // namespace flangewright::chart
