// Several coupons of one lot together.
#include "io/coupon/coupon_set.hpp"

#include <gtest/gtest.h>

namespace flangewright::coupon {
namespace {

EdgeReading that_bore(double stretch) {
    EdgeReading reading;
    reading.borne.before = 10;
    reading.borne.after = 10 * (1 + stretch);
    return reading;
}

TEST(CouponSet, HasMeanLeastAndDeviation) {
    const CouponSet set = set_of({that_bore(0.14), that_bore(0.10), that_bore(0.12)});
    EXPECT_EQ(set.n, 3);
    EXPECT_NEAR(set.mean, 0.12, 1e-12);
    EXPECT_NEAR(set.least, 0.10, 1e-12);
    EXPECT_NEAR(set.most, 0.14, 1e-12);
    EXPECT_NEAR(set.deviation, 0.02, 1e-12);
}

TEST(CouponSet, OfOneHasNoDeviation) {
    EXPECT_EQ(set_of({that_bore(0.14)}).deviation, 0);
}

// Of n + 1 alike any one may be the least.
TEST(CouponSet, TellsHowSureItsLeastIs) {
    EXPECT_NEAR(chance_below_least(1), 0.5, 1e-12);
    EXPECT_NEAR(chance_below_least(3), 0.25, 1e-12);
}

} // namespace
} // namespace flangewright::coupon
