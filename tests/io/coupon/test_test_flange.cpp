#include "tests/io/coupon/coupon_parts.hpp"

#include <gmock/gmock.h>

namespace flangewright::coupon {
namespace {

using ::testing::HasSubstr;

const std::string filed_case =
    case_file::with_line(16, "end = \"continues\"\nedge = \"filed\""); // bears 16 %, assumed

// With a square wall the edge ends on the radius R - (nose + t / 2), from R - w:
// stretch = (R - a) / (R - w) - 1, a closed form that the steps must fulfil.
TEST(TestFlange, StretchRisesInStepsAroundTheAllowedOne) {
    const TestFlange flange = coupon_parts(filed_case).flange;
    ASSERT_EQ(flange.steps.size(), 5U);
    constexpr double allowed = 0.16;
    constexpr double a = 2.4 + 0.4;
    const double w = flange.flat_width;
    for (std::size_t i = 0; i < 5; ++i) {
        const double R = flange.steps[i].radius;
        EXPECT_NEAR(flange.steps[i].stretch, (R - a) / (R - w) - 1, 1e-9);
        EXPECT_DOUBLE_EQ(2 * R, std::round(2 * R));
        // Radii in halves of a millimetre: 0.25 mm of some 100 mm is 0.3 % of the stretch and some.
        constexpr double half_step = 0.005;
        const double wanted = allowed * (0.5 + 0.2 * static_cast<double>(i));
        EXPECT_NEAR(flange.steps[i].stretch / wanted, 1, half_step);
    }
    EXPECT_LT(flange.steps.back().radius, flange.steps.front().radius);
}

TEST(TestFlange, HasTheFlatWidthOfTheJob) {
    const CouponParts parts = coupon_parts();
    EXPECT_NEAR(parts.flange.flat_width, parts.own.job.blank.flange_width, 0.1);
    EXPECT_GE(parts.flange.flat_width, parts.own.job.blank.flange_width - 1e-6);
}

TEST(TestFlange, IsRefusedWithoutAnyLimitToStartFrom) {
    case_file::CaseFile own = coupon_parts().own;
    own.job.sheet.material.uniform_elongation = {};
    const auto flange = test_flange(own.job, "own.toml");
    ASSERT_FALSE(flange.has_value());
    EXPECT_THAT(
        key_file::line_for(flange.error()),
        HasSubstr("sheet.material: found uniform elongation that is not known")
    );
}

TEST(TestFlange, HasFewerStepsWhereRoomIsShort) {
    case_file::CaseFile own = coupon_parts().own;
    own.job.sheet.material.uniform_elongation.value = 0.45;
    const auto flange = test_flange(own.job, "own.toml");
    ASSERT_TRUE(flange.has_value());
    EXPECT_LT(flange->steps.size(), 5U);
    EXPECT_GE(flange->steps.size(), 3U);
}

} // namespace
} // namespace flangewright::coupon
