#include "solver/process/value_search.hpp"

#include "mesh/base/sign_change.hpp"
#include "solver/findings/verdict.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

/// What is compared, and what is told.
struct Reading {
    double sign = 0; ///< figure less what is wanted; at most 0: the share is kept
    double figure = 0;
};

/// A whole run.
struct Check {
    double value = 0;
    std::optional<Reading> reading; ///< nothing: no balance
};

/// By how much a whole run's sign lies above what the trials let expect.
struct Miss {
    double value = 0;
    double sign = 0;
};

LimitAnswer as_limit(const findings::LimitUse& use) {
    return {use.share.value_or(-1), use.is_needed, use.grade};
}

double allowed_share(const LimitAnswer& limit, double wanted, double close_share) {
    if (wanted > 0) {
        return wanted;
    }
    constexpr double doubtful_from = 0.5; // findings::is_doubtful()
    return findings::is_doubtful(1, limit.grade) ? std::min(close_share, doubtful_from)
                                                 : close_share;
}

/// The limit whose share is largest for what it may be; nothing when one is not known.
std::optional<Reading>
worst_of(const std::vector<LimitAnswer>& limits, double wanted, double close_share) {
    Reading worst{-1, 0};
    for (const LimitAnswer& limit : limits) {
        if (!limit.is_needed) {
            continue;
        }
        if (limit.share < 0) {
            return std::nullopt;
        }
        const double over = limit.share / allowed_share(limit, wanted, close_share) - 1;
        if (over > worst.sign) {
            worst = {over, limit.share};
        }
    }
    return worst;
}

class Search {
public:
    Search(const ValueSearch& search, const SearchWorks& works, const Monitor& monitor)
        : search_(search), works_(works), monitor_(monitor),
          trials_(
              works.quick,
              monitor,
              [this](double value, const QuickAnswer& answer, const auto& expected) {
                  hear(value, answer, expected);
              }
          ) {}

    ValueFound run() {
        if (const std::optional<SearchEnd> end = begin()) {
            return ended(*end);
        }
        while (true) {
            if (is_near_enough()) {
                return ended(SearchEnd::found);
            }
            const std::optional<double> next = next_value();
            if (is_stopped()) {
                return ended(SearchEnd::stopped);
            }
            if (!next) {
                return ended(why_);
            }
            if (static_cast<int>(checks_.size()) >= search_.n_checks_most) {
                return ended(SearchEnd::not_near);
            }
            check(*next);
        }
    }

private:
    [[nodiscard]] bool is_angle() const { return search_.aim == Aim::flange_angle; }
    [[nodiscard]] bool is_stopped() const { return monitor_.stop.stop_requested(); }
    [[nodiscard]] double furthest() const {
        return search_.aim == Aim::most_share ? search_.to : search_.from;
    }
    [[nodiscard]] double nearest() const {
        return search_.aim == Aim::most_share ? search_.from : search_.to;
    }

    // As the case stands; where that finds no balance, from the bounds.
    std::optional<SearchEnd> begin() {
        const double start = std::clamp(search_.as_case, search_.from, search_.to);
        for (const double value : {start, nearest(), furthest()}) {
            if (!is_checked(value)) {
                check(value);
            }
            if (is_stopped()) {
                return SearchEnd::stopped;
            }
            if (best_) {
                return std::nullopt;
            }
            if (is_unknown_) {
                return SearchEnd::not_known;
            }
        }
        return SearchEnd::no_balance;
    }

    [[nodiscard]] std::optional<Reading> read(const JobResult& run, const job::Job& job) const {
        if (is_angle()) {
            const std::optional<double> angle = loose_angle(run);
            return angle ? std::optional(Reading{*angle - search_.wanted, *angle}) : std::nullopt;
        }
        std::vector<LimitAnswer> limits;
        for (const findings::LimitUse& use : run.verdict.limits) {
            limits.push_back(as_limit(use));
        }
        return worst_of(limits, search_.wanted, job.close_share);
    }

    // As the trials say it beside the first whole run.
    [[nodiscard]] std::optional<Reading> read(const Expected& expected) const {
        if (is_angle()) {
            return Reading{expected.angle - search_.wanted, expected.angle};
        }
        return worst_of(expected.limits, search_.wanted, close_share_);
    }

    // The same set right by what the whole runs since then have shown the trials to miss.
    [[nodiscard]] std::optional<Reading> read(double value, const Expected& expected) const {
        std::optional<Reading> reading = read(expected);
        if (!reading || misses_.size() < 2) {
            return reading;
        }
        const double more = missed_at(value);
        if (is_angle()) {
            reading->figure += more;
        } else if (reading->sign > -1) {
            reading->figure *= std::max(reading->sign + more + 1, 0.0) / (reading->sign + 1);
        }
        reading->sign += more;
        return reading;
    }

    // Straight from one whole run to the next, past the last ones on by their distance at most.
    [[nodiscard]] double missed_at(double value) const {
        const auto above = std::ranges::lower_bound(misses_, value, {}, &Miss::value);
        const auto next = std::clamp(above, misses_.begin() + 1, misses_.end() - 1);
        const Miss& one = *(next - 1);
        const double share = (value - one.value) / (next->value - one.value);
        return one.sign + std::clamp(share, -1.0, 2.0) * (next->sign - one.sign);
    }

    // A whole run on the case's own mesh.
    void check(double value) {
        const auto begin = std::chrono::steady_clock::now();
        Monitor told;
        told.stop = monitor_.stop;
        told.on_progress = [this](Progress progress) {
            progress.step =
                "whole run " + std::to_string(checks_.size() + 1) + ": " + progress.step;
            monitor_.report(progress);
        };
        std::shared_ptr<const JobResult> result;
        std::optional<Reading> reading;
        if (std::optional<job::Job> job = works_.quick.job_at(value)) {
            job->scatter.reset();
            close_share_ = job->close_share;
            RunOptions options;
            options.n_threads = search_.n_threads;
            options.measure_bare_refactor = false;
            options.estimates_mesh_error = true;
            Result<JobResult> run = works_.run_job(*job, options, told);
            if (run && run->reason == StopReason::done) {
                result = std::make_shared<const JobResult>(std::move(*run));
                reading = read(*result, *job);
                is_unknown_ = !reading;
            }
        }
        if (is_stopped()) {
            return; // a run that was left tells nothing
        }
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
        checks_.push_back({value, reading});
        tell({true, value, reading ? std::optional(reading->figure) : std::nullopt, spent.count()});
        if (reading) {
            take(checks_.back(), result);
        }
    }

    void take(const Check& now, const std::shared_ptr<const JobResult>& result) {
        if (!best_ || is_better(now, *best_)) {
            best_ = now;
            result_ = result;
        }
        if (!has_trials_) {
            has_trials_ = trials_.stand_beside(now.value, result, !is_angle());
            misses_ = {{now.value, 0}};
            return;
        }
        const auto expected = trials_.expect({now.value});
        if (!expected.empty() && expected.front()) {
            if (const std::optional<Reading> reading = read(*expected.front())) {
                misses_.push_back({now.value, now.reading->sign - reading->sign});
                std::ranges::sort(misses_, {}, &Miss::value);
            }
        }
    }

    [[nodiscard]] bool is_better(const Check& one, const Check& other) const {
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

    [[nodiscard]] bool keeps_share() const { return !is_angle() && best_->reading->sign <= 0; }

    [[nodiscard]] bool is_near_enough() const {
        if (is_angle()) {
            return std::abs(best_->reading->sign) <= search_.figure_tolerance;
        }
        const auto sides = checked_sides();
        return sides && sides->second.value - sides->first.value <= search_.tolerance;
    }

    [[nodiscard]] bool is_checked(double value) const {
        return std::ranges::find(checks_, value, &Check::value) != checks_.end();
    }

    // Neighbours among the whole runs of which one is short of what is wanted and one beyond.
    [[nodiscard]] std::optional<std::pair<Check, Check>> checked_sides() const {
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

    // Bounds less what lies past a whole run without balance.
    [[nodiscard]] std::pair<double, double> stretch() const {
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

    [[nodiscard]] SignChange ask_trials(double from, double to) {
        SignSearch signs{from, to};
        signs.tolerance = std::max(0.25 * search_.tolerance, 1e-6 * (to - from));
        signs.figure_tolerance = is_angle() ? 0.25 * search_.figure_tolerance : 0;
        signs.n_at_once = works_.quick.n_at_once;
        signs.n_rounds_most = 16;
        return find_sign_change(signs, [this](const std::vector<double>& values) {
            std::vector<std::optional<double>> figures;
            const std::vector<std::optional<Expected>> all = trials_.expect(values);
            for (std::size_t i = 0; i < all.size(); ++i) {
                const std::optional<Reading> reading =
                    all[i] ? read(values[i], *all[i]) : std::nullopt;
                figures.push_back(reading ? std::optional(reading->sign) : std::nullopt);
            }
            return figures;
        });
    }

    // Where the next whole run shall be; nothing: the search has ended, and why_ says how.
    std::optional<double> next_value() {
        const auto sides = checked_sides();
        auto [from, to] = stretch();
        if (sides) {
            from = sides->first.value;
            to = sides->second.value;
        }
        if (!has_trials_) {
            return sides ? between(*sides) : beyond(from, to);
        }
        const SignChange change = ask_trials(from, to);
        if (is_stopped()) {
            return std::nullopt;
        }
        if (change.below) {
            return at_change(change, sides);
        }
        return sides ? between(*sides) : without_change(change, from, to);
    }

    std::optional<double>
    at_change(const SignChange& change, const std::optional<std::pair<Check, Check>>& sides) {
        const double way = nearest() < furthest() ? 1 : -1; // on to where it is not kept
        // A share is to be kept: a little to that side of where the trials put the border.
        double aimed = change.at - (is_angle() ? 0 : way * 0.3 * search_.tolerance);
        if (keeps_share() && std::abs(change.at - best_->value) <= search_.tolerance) {
            // Where the share is far from what it may be, it jumps there: a run beyond tells.
            constexpr double believable = -0.1;
            if (best_->reading->sign >= believable) {
                return end(SearchEnd::found);
            }
            aimed = best_->value + way * 0.9 * search_.tolerance;
        }
        const double next = works_.rounded(std::clamp(aimed, search_.from, search_.to));
        if (!is_checked(next)) {
            return next;
        }
        return sides ? between(*sides) : end(SearchEnd::not_near);
    }

    // Straight between two whole runs, but not next to either.
    std::optional<double> between(const std::pair<Check, Check>& sides) {
        const auto& [below, above] = sides;
        const double share = below.reading->sign / (below.reading->sign - above.reading->sign);
        const double next =
            works_.rounded(below.value + std::clamp(share, 0.1, 0.9) * (above.value - below.value));
        return is_checked(next) ? end(SearchEnd::not_near) : std::optional(next);
    }

    // The trials see no change: a whole run at the bound where it is nearest says whether it is so.
    std::optional<double> without_change(const SignChange& change, double from, double to) {
        if (change.end != SignEnd::no_change) {
            return beyond(from, to);
        }
        const auto size = [](const TriedPoint& point) {
            return point.figure ? std::abs(*point.figure) : INFINITY;
        };
        double bound = std::ranges::min_element(change.tried, {}, size)->at;
        if (keeps_share()) {
            bound = furthest();
        }
        return is_checked(bound) ? beyond(from, to) : std::optional(bound);
    }

    // No change known: the bounds by whole runs, and half the way to one that finds no balance.
    std::optional<double> beyond(double from, double to) {
        if (keeps_share() && best_->value == furthest()) {
            return end(SearchEnd::at_bound);
        }
        const bool has_no_change = has_trials_ || (is_known(search_.from) && is_known(search_.to));
        for (const double bound : {furthest(), nearest()}) {
            if (!is_checked(bound) && !has_trials_) {
                return bound;
            }
        }
        for (const double bound : {from, to}) {
            const double middle = works_.rounded(0.5 * (bound + best_->value));
            const bool is_gap = is_checked(bound) && !is_known(bound);
            if (is_gap && std::abs(bound - best_->value) > search_.tolerance
                && !is_checked(middle)) {
                return middle;
            }
        }
        return end(has_no_change ? SearchEnd::none_in_bounds : SearchEnd::no_balance);
    }

    [[nodiscard]] bool is_known(double value) const {
        return std::ranges::any_of(checks_, [value](const Check& each) {
            return each.value == value && each.reading;
        });
    }

    std::nullopt_t end(SearchEnd why) {
        why_ = why;
        return std::nullopt;
    }

    void hear(double value, const QuickAnswer& answer, const std::optional<Expected>& expected) {
        const std::optional<Reading> reading = expected ? read(value, *expected) : std::nullopt;
        const bool is_own = best_ && !expected && answer.numbers; // set beside itself
        if (!is_own) {
            tell(
                {false,
                 value,
                 reading ? std::optional(reading->figure) : std::nullopt,
                 answer.seconds}
            );
        }
    }

    void tell(const ValueTrial& trial) {
        told_.push_back(trial);
        if (works_.on_trial) {
            works_.on_trial(trial);
        }
    }

    // The whole run's figure there, else what the trials expect beside the last whole run.
    [[nodiscard]] std::optional<ValueTrial> known_at(double bound) {
        const auto is_there = [bound](const ValueTrial& trial) { return trial.value == bound; };
        for (const bool is_check : {true, false}) {
            const auto found = std::ranges::find_if(told_, [&](const ValueTrial& trial) {
                return is_there(trial) && trial.is_check == is_check;
            });
            if (found != told_.end()) {
                ValueTrial now = *found;
                if (!is_check && has_trials_ && !is_stopped()) {
                    const auto expected = trials_.expect({bound});
                    const auto reading = expected.empty() || !expected.front()
                        ? std::nullopt
                        : read(bound, *expected.front());
                    now.figure = reading ? std::optional(reading->figure) : now.figure;
                }
                return now;
            }
        }
        return std::nullopt;
    }

    ValueFound ended(SearchEnd end) {
        ValueFound found;
        found.end = end;
        if (best_) {
            found.value = best_->value;
            found.figure = best_->reading->figure;
        }
        found.at_from = known_at(search_.from);
        found.at_to = known_at(search_.to);
        found.trials = told_;
        found.check = result_;
        return found;
    }

    const ValueSearch& search_;
    const SearchWorks& works_;
    const Monitor& monitor_;
    QuickTrials trials_;
    std::vector<Check> checks_;
    std::vector<Miss> misses_; // by value, where trials were set beside a whole run
    std::optional<Check> best_;
    std::shared_ptr<const JobResult> result_; // of the best
    std::vector<ValueTrial> told_;
    SearchEnd why_ = SearchEnd::not_near;
    double close_share_ = 0.8;
    bool has_trials_ = false;
    bool is_unknown_ = false;
};

} // namespace

ValueFound find_value(const ValueSearch& search, const SearchWorks& works, const Monitor& monitor) {
    return Search(search, works, monitor).run();
}

} // namespace flangewright::process
