// Made-up readings of a test flange.
#pragma once

#include <string>

namespace flangewright::coupon {

/// 2 mm of stretch on 20 mm is 10 %; the first crack is at 16 %, a whole pair at 17 %.
inline const std::string measured_text =
    "# made up\n"
    "mark_from,mark_to,before_mm,after_mm,thickness_mm,cracked\n"
    "4,8,20,21.0,0.79,no\n"
    "9,13,20,22.0,0.77,no\n"
    "14,18,20,22.8,,no\n"
    "19,23,20,23.4,0.75,no\n"
    "24,28,20,23.2,,yes\n";

} // namespace flangewright::coupon
