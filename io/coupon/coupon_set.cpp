#include "io/coupon/coupon_set.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::coupon {

CouponSet set_of(const std::vector<EdgeReading>& readings) {
    check(!readings.empty(), "a set has a coupon");
    CouponSet set{static_cast<int>(readings.size())};
    set.least = set.most = readings.front().borne.stretch();
    for (const EdgeReading& reading : readings) {
        const double stretch = reading.borne.stretch();
        set.mean += stretch / set.n;
        set.least = std::min(set.least, stretch);
        set.most = std::max(set.most, stretch);
    }
    double squares = 0;
    for (const EdgeReading& reading : readings) {
        squares += std::pow(reading.borne.stretch() - set.mean, 2);
    }
    set.deviation = set.n > 1 ? std::sqrt(squares / (set.n - 1)) : 0;
    return set;
}

double chance_below_least(int n) {
    return 1.0 / (n + 1);
}

} // namespace flangewright::coupon
