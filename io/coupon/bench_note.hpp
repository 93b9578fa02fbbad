// What is done at the bench with a test flange, and the table to fill in.
#pragma once

#include "io/coupon/gauge_marks.hpp"

#include <string>
#include <vector>

namespace flangewright::coupon {

/// A page of plain text: sizes of the steps, marking, cutting, forming, measuring, reading back.
/// Units: mm and in. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string
bench_note(const job::Job& coupon, const TestFlange& flange, const std::vector<GaugeMark>& marks);

/// The table of marks without its measured values, as `measured_file.hpp` reads it once filled in.
/// Units: mm. Source: docs/materials.md, "Coupon". Fails: never.
[[nodiscard]] std::string empty_table(const std::vector<GaugeMark>& marks);

} // namespace flangewright::coupon
