// The case file of a test flange.
#pragma once

#include "io/case_file/case_file.hpp"
#include "io/coupon/test_flange.hpp"

#include <string>
#include <string_view>

namespace flangewright::coupon {

/// The text of a case that bends the test flange as the user's own case bends his: sheet as it is
/// written in his file (`own_text`), nose, block, drive, friction. Units: mm, deg. Source:
/// docs/case-file.md. Fails: when his file has its sheet in another form than sections.
[[nodiscard]] Result<std::string, key_file::InputProblem> coupon_case(
    const case_file::CaseFile& own,
    std::string_view own_text,
    const TestFlange& flange,
    const std::string& file
);

} // namespace flangewright::coupon
