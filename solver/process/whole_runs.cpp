#include "solver/process/whole_runs.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace flangewright::process {

bool WholeRuns::add(const Check& now) {
    checks_.push_back(now);
    if (now.reading && (!best_ || is_better(now, *best_))) {
        best_ = now;
        return true;
    }
    return false;
}

bool WholeRuns::is_checked(double value) const {
    return std::ranges::find(checks_, value, &Check::value) != checks_.end();
}

bool WholeRuns::is_known(double value) const {
    return std::ranges::any_of(checks_, [value](const Check& each) {
        return each.value == value && each.reading;
    });
}

double WholeRuns::furthest() const {
    return search_.aim == Aim::most_share ? search_.to : search_.from;
}

double WholeRuns::nearest() const {
    return search_.aim == Aim::most_share ? search_.from : search_.to;
}

bool WholeRuns::keeps_share() const {
    return !is_angle() && best_->reading->sign <= 0;
}

bool WholeRuns::is_near_enough() const {
    if (is_angle()) {
        return std::abs(best_->reading->sign) <= search_.figure_tolerance;
    }
    const auto both = sides();
    return both && both->second.value - both->first.value <= search_.tolerance;
}

std::optional<std::pair<Check, Check>> WholeRuns::sides() const {
    std::vector<Check> known;
    std::ranges::copy_if(checks_, std::back_inserter(known), [](const Check& each) {
        return each.reading.has_value();
    });
    std::ranges::sort(known, {}, &Check::value);
    for (std::size_t i = 1; i < known.size(); ++i) {
        if ((known[i - 1].reading->sign > 0) != (known[i].reading->sign > 0)) {
            return std::pair(known[i - 1], known[i]);
        }
    }
    return std::nullopt;
}

std::pair<double, double> WholeRuns::stretch() const {
    std::pair<double, double> bounds{search_.from, search_.to};
    for (const Check& each : checks_) {
        if (!each.reading && each.value < best_->value) {
            bounds.first = std::max(bounds.first, each.value);
        } else if (!each.reading) {
            bounds.second = std::min(bounds.second, each.value);
        }
    }
    return bounds;
}

bool WholeRuns::is_better(const Check& one, const Check& other) const {
    if (is_angle()) {
        return std::abs(one.reading->sign) < std::abs(other.reading->sign);
    }
    const bool keeps = one.reading->sign <= 0;
    if (keeps != (other.reading->sign <= 0)) {
        return keeps;
    }
    return keeps ? std::abs(one.value - furthest()) < std::abs(other.value - furthest())
                 : one.reading->sign < other.reading->sign;
}

std::optional<ValueTrial> told_at(const std::vector<ValueTrial>& told, double value) {
    for (const bool is_check : {true, false}) {
        const auto found = std::ranges::find_if(told, [&](const ValueTrial& trial) {
            return trial.value == value && trial.is_check == is_check;
        });
        if (found != told.end()) {
            return *found;
        }
    }
    return std::nullopt;
}

void TrialMisses::add(double value, double sign) {
    misses_.push_back({value, sign});
    std::ranges::sort(misses_, {}, &Miss::value);
}

Reading TrialMisses::corrected(const Reading& reading, double value, Aim aim) const {
    if (misses_.size() < 2) {
        return reading;
    }
    Reading now = reading;
    const double more = at(value);
    if (aim == Aim::flange_angle) {
        now.figure += more;
    } else if (now.sign > -1) {
        now.figure *= std::max(now.sign + more + 1, 0.0) / (now.sign + 1);
    }
    now.sign += more;
    return now;
}

// Straight from one whole run to the next, past the last ones on by their distance at most.
double TrialMisses::at(double value) const {
    const auto above = std::ranges::lower_bound(misses_, value, {}, &Miss::value);
    const auto next = std::clamp(above, misses_.begin() + 1, misses_.end() - 1);
    const Miss& one = *(next - 1);
    const double share = (value - one.value) / (next->value - one.value);
    return one.sign + std::clamp(share, -1.0, 2.0) * (next->sign - one.sign);
}

} // namespace flangewright::process
