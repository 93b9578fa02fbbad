// What several test flanges of one lot say together.
#pragma once

#include "io/coupon/edge_reading.hpp"

#include <vector>

namespace flangewright::coupon {

/// Of the stretches they bore without a crack; engineering strains.
struct CouponSet {
    int n = 0;
    double mean = 0;
    double least = 0;
    double most = 0;
    double deviation = 0; ///< standard deviation of one coupon, from n - 1; 0 for one
};

/// At least one reading. Units: -. Source: definitions. Fails: none is a caller's bug.
[[nodiscard]] CouponSet set_of(const std::vector<EdgeReading>& readings);

/// How often one more coupon of the lot bears less than the least of n: any of the n + 1 is as
/// likely to be the least. Units: -. Source: derived here. Fails: never.
[[nodiscard]] double chance_below_least(int n);

} // namespace flangewright::coupon
