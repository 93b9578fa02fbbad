// flangewright coupon: a test flange of the shop's own, and what its edge bore.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"

namespace flangewright::command_line {

/// coupon write: case, template, note and table of a test flange, into a folder that has none of
/// them yet. Returns the exit code.
[[nodiscard]] int write_coupon(const CouponWriteArguments& arguments, Terminal& terminal);

/// coupon read: the edge's limit from measured test flanges, put into the user's own sheet. `date`
/// is that of the reading, "2026-11-26". Returns the exit code.
[[nodiscard]] int
read_coupon(const CouponReadArguments& arguments, const std::string& date, Terminal& terminal);

/// Today by the local clock, "2026-11-26".
[[nodiscard]] std::string date_today();

} // namespace flangewright::command_line
