// The good case's test flange, from sizes to marks.
#pragma once

#include "io/coupon/coupon_case.hpp"
#include "io/coupon/gauge_marks.hpp"
#include "tests/io/case_file/case_text.hpp"

namespace flangewright::coupon {

struct CouponParts {
    case_file::CaseFile own;
    TestFlange flange;
    std::string text;
    case_file::CaseFile read;
    std::vector<GaugeMark> marks;
};

/// Units: mm. Source: made up. Fails: throws when the case has a problem.
inline CouponParts coupon_parts(const std::string& own_text = case_file::good_case) {
    CouponParts parts;
    parts.own = case_file::read_case_text(own_text, "own.toml").value();
    parts.flange = test_flange(parts.own.job, "own.toml").value();
    parts.text = coupon_case(parts.own, own_text, parts.flange, "own.toml").value();
    parts.read = case_file::read_case_text(parts.text, "case.toml").value();
    parts.marks = gauge_marks(parts.read.job.blank.line, parts.flange);
    return parts;
}

} // namespace flangewright::coupon
