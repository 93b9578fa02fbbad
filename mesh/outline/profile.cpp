#include "mesh/outline/profile.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::outline {

Profile::Profile(std::vector<ProfilePoint> points) : points_(std::move(points)) {
    const auto falls = [](const ProfilePoint& one, const ProfilePoint& next) {
        return next.station <= one.station;
    };
    check(std::ranges::adjacent_find(points_, falls) == points_.end(), "stations rise");
}

/// Slope past so many points.
double Profile::slope_after(std::size_t n_passed) const {
    if (n_passed == 0 || n_passed == points_.size()) {
        return 0;
    }
    const ProfilePoint& from = points_[n_passed - 1];
    const ProfilePoint& to = points_[n_passed];
    return (to.value - from.value) / (to.station - from.station);
}

/// How far to either side of a point its corner is rounded.
double Profile::rounding_at(std::size_t i) const {
    constexpr double most = 2; // mm
    constexpr double share = 0.25; // of the way to the next point
    double rounding = most;
    if (i > 0) {
        rounding = std::min(rounding, share * (points_[i].station - points_[i - 1].station));
    }
    if (i + 1 < points_.size()) {
        rounding = std::min(rounding, share * (points_[i + 1].station - points_[i].station));
    }
    return rounding;
}

double Profile::at(double station) const {
    check(!points_.empty(), "a profile that is asked has points");
    const auto past = std::ranges::upper_bound(points_, station, {}, &ProfilePoint::station);
    if (past == points_.begin()) {
        return points_.front().value;
    }
    const ProfilePoint& from = *std::prev(past);
    const double slope = slope_after(static_cast<std::size_t>(past - points_.begin()));
    return from.value + slope * (station - from.station);
}

ProfileReading Profile::rounded_at(double station) const {
    const auto past = std::ranges::upper_bound(points_, station, {}, &ProfilePoint::station);
    const auto n_passed = static_cast<std::size_t>(past - points_.begin());
    ProfileReading reading{at(station), slope_after(n_passed), 0};
    for (std::size_t i = 0; i < points_.size(); ++i) {
        const double half = rounding_at(i);
        const double beyond = station - points_[i].station;
        if (std::abs(beyond) >= half) {
            continue;
        }
        const double change = slope_after(i + 1) - slope_after(i);
        const double into = beyond + half;
        reading.value += change * (into * into / (4 * half) - std::max(0.0, beyond));
        reading.slope += change * (into / (2 * half) - (beyond >= 0 ? 1 : 0));
        reading.bend += change / (2 * half);
    }
    return reading;
}

double Profile::least() const {
    check(!points_.empty(), "a profile that is asked has points");
    return std::ranges::min(points_, {}, &ProfilePoint::value).value;
}

double Profile::most() const {
    check(!points_.empty(), "a profile that is asked has points");
    return std::ranges::max(points_, {}, &ProfilePoint::value).value;
}

double Profile::steepest() const {
    double steepest = 0;
    for (std::size_t i = 1; i < points_.size(); ++i) {
        steepest = std::max(steepest, std::abs(slope_after(i)));
    }
    return steepest;
}

Profile Profile::raised_by(double amount) const {
    Profile raised = *this;
    for (ProfilePoint& point : raised.points_) {
        point.value += amount;
    }
    return raised;
}

} // namespace flangewright::outline
