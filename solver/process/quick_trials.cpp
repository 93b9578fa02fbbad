#include "solver/process/quick_trials.hpp"

#include "solver/process/slice.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <utility>

namespace flangewright::process {

namespace {

bool has_same_places(const findings::Verdict& one, const findings::Verdict& other) {
    return std::ranges::equal(
        one.limits, other.limits, {}, &findings::LimitUse::place, &findings::LimitUse::place
    );
}

std::vector<double> without_angle(const std::vector<double>& numbers) {
    return {numbers.begin() + 1, numbers.end()};
}

} // namespace

QuickTrials::QuickTrials(
    QuickWork work,
    const Monitor& monitor,
    std::function<void(double, const QuickAnswer&, const std::optional<Expected>&)> on_trial
)
    : work_(std::move(work)), monitor_(monitor), on_trial_(std::move(on_trial)) {}

bool QuickTrials::stand_beside(
    double value, const std::shared_ptr<const JobResult>& run, bool needs_shares
) {
    if (first_ == nullptr) {
        first_ = run;
    }
    if (!has_same_places(as_run_, run->verdict)) {
        answers_.clear();
    }
    as_run_ = run->verdict;
    angle_as_run_ = loose_angle(*run).value_or(std::numeric_limits<double>::quiet_NaN());
    while (true) {
        beside_.clear();
        if (!solve({value})) {
            return false;
        }
        const Numbers& numbers = answers_.at(value).numbers;
        if (numbers && (!uses_slice_ || !needs_shares || is_like(*numbers))) {
            beside_ = *numbers;
            return true;
        }
        if (!uses_slice_) {
            return false;
        }
        uses_slice_ = false;
        answers_.clear();
    }
}

// The same third that the remedies ask for.
bool QuickTrials::is_like(const std::vector<double>& numbers) const {
    const std::vector<double> shares = without_angle(numbers);
    for (std::size_t i = 0; i < as_run_.limits.size(); ++i) {
        const findings::LimitUse& use = as_run_.limits[i];
        const double as_run = use.is_needed ? use.share.value_or(0) : 0;
        const bool matters = as_run >= 0.5 * as_run_.share_used.value_or(0);
        if (matters && 3 * std::abs(share_in(shares, i) - as_run) > as_run) {
            return false;
        }
    }
    return true;
}

bool QuickTrials::solve(const std::vector<double>& values) {
    std::vector<double> fresh;
    for (const double value : values) {
        if (!answers_.contains(value) && std::ranges::find(fresh, value) == fresh.end()) {
            fresh.push_back(value);
        }
    }
    const int n = static_cast<int>(fresh.size());
    const auto work = [&](int index) -> Numbers {
        const auto begin = std::chrono::steady_clock::now();
        const std::optional<job::Job> job = work_.job_at(fresh[static_cast<std::size_t>(index)]);
        if (!job) {
            return std::nullopt;
        }
        Numbers numbers =
            work_.solve(uses_slice_ ? slice_of(*job, first_->mesh, first_->steps) : *job, as_run_);
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
        if (numbers) {
            numbers->push_back(spent.count());
        }
        return numbers;
    };
    const auto tell = [&](int n_done) {
        monitor_.report({.step = "trials", .share_done = static_cast<double>(n_done) / n});
    };
    if (n > 0) {
        tell(0);
    }
    std::vector<Numbers> found = in_child_processes(n, work_.n_at_once, work, tell, monitor_.stop);
    if (monitor_.stop.stop_requested()) {
        return false;
    }
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        QuickAnswer answer{std::move(found[i]), 0};
        if (answer.numbers) {
            answer.seconds = answer.numbers->back();
            answer.numbers->pop_back();
        }
        on_trial_(fresh[i], answer, expected(answer));
        answers_[fresh[i]] = std::move(answer);
    }
    return true;
}

std::optional<Expected> QuickTrials::expected(const QuickAnswer& answer) const {
    if (!answer.numbers || beside_.empty()) {
        return std::nullopt;
    }
    return Expected{
        angle_as_run_ + answer.numbers->front() - beside_.front(),
        expected_limits(as_run_, without_angle(beside_), without_angle(*answer.numbers))};
}

std::vector<std::optional<Expected>> QuickTrials::expect(const std::vector<double>& values) {
    std::vector<std::optional<Expected>> all;
    if (solve(values)) {
        for (const double value : values) {
            all.push_back(expected(answers_.at(value)));
        }
    }
    return all;
}

} // namespace flangewright::process
