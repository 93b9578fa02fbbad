// A fitted tensile test in words.
#pragma once

#include "solver/material/fit/tensile_fit.hpp"

#include <string>

namespace flangewright::command_line {

/// Every number with its unit and how it was come by; what the test can't tell is said to be
/// unknown.
[[nodiscard]] std::string fit_text(const material::TensileFit& fit);

} // namespace flangewright::command_line
