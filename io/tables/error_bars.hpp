// The error bars behind the printed figures: mesh, and scatter where it was asked for.
#pragma once

#include "solver/process/job_result.hpp"

#include <optional>
#include <string>

namespace flangewright::tables {

/// Half-widths; empty where nothing is known of a figure. rad, mm, strains in -.
struct ErrorBars {
    std::optional<double> springback;
    std::optional<double> flange_angle; ///< after the last step
    std::optional<double> edge_strain; ///< log
    std::optional<double> thinning;
    std::optional<double> web_lift; ///< after the last step
    std::string meaning; ///< "mesh", "mesh and scatter" or "scatter"; empty without any
};

/// Both together as the root of the sum of squares. Units: rad, mm, -. Source: independent errors,
/// textbook. Fails: never.
[[nodiscard]] ErrorBars error_bars(const process::JobResult& result);

} // namespace flangewright::tables
