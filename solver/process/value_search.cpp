#include "solver/process/value_search.hpp"

#include "solver/process/next_run.hpp"
#include "solver/process/whole_solve.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

std::optional<double> figure_of(const std::optional<Reading>& reading) {
    return reading ? std::optional(reading->figure) : std::nullopt;
}

class Search {
public:
    Search(const ValueSearch& search, const SearchWorks& works, const Monitor& monitor)
        : search_(search), works_(works), monitor_(monitor), runs_(search),
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
            if (runs_.is_near_enough()) {
                return ended(SearchEnd::found);
            }
            std::optional<SignChange> change;
            if (has_trials_) {
                change = ask_trials();
            }
            if (is_stopped()) {
                return ended(SearchEnd::stopped);
            }
            const NextRun next = next_run({search_, runs_, works_.rounded, has_trials_}, change);
            if (!next.value) {
                return ended(next.why);
            }
            if (runs_.n() >= search_.n_checks_most) {
                return ended(SearchEnd::not_near);
            }
            check(*next.value);
        }
    }

private:
    [[nodiscard]] bool is_angle() const { return search_.aim == Aim::flange_angle; }
    [[nodiscard]] bool is_stopped() const { return monitor_.stop.stop_requested(); }

    // As the case stands; where that finds no balance, from the bounds.
    std::optional<SearchEnd> begin() {
        const double start = std::clamp(search_.as_case, search_.from, search_.to);
        for (const double value : {start, runs_.nearest(), runs_.furthest()}) {
            if (!runs_.is_checked(value)) {
                check(value);
            }
            if (is_stopped()) {
                return SearchEnd::stopped;
            }
            if (runs_.best()) {
                return std::nullopt;
            }
            if (is_unknown_) {
                return SearchEnd::not_known;
            }
        }
        return SearchEnd::no_balance;
    }

    // A whole run on the case's own mesh.
    void check(double value) {
        const auto begin = std::chrono::steady_clock::now();
        const WholeSolve whole = solve_whole(search_, works_, value, runs_.n() + 1, monitor_);
        if (is_stopped()) {
            return; // a run that was left tells nothing
        }
        close_share_ = whole.close_share.value_or(close_share_);
        std::optional<Reading> reading;
        if (whole.result) {
            reading = read_run(search_, *whole.result, close_share_);
            is_unknown_ = !reading;
        }
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
        if (runs_.add({value, reading})) {
            result_ = whole.result;
        }
        tell({true, value, figure_of(reading), spent.count()});
        if (reading) {
            set_trials_beside(value, *reading, whole.result);
        }
    }

    void set_trials_beside(
        double value, const Reading& reading, const std::shared_ptr<const JobResult>& result
    ) {
        if (!has_trials_) {
            has_trials_ = trials_.stand_beside(value, result, !is_angle());
            misses_.begin_at(value);
            return;
        }
        const auto expected = trials_.expect({value});
        if (!expected.empty() && expected.front()) {
            if (const auto trial = read_expected(search_, *expected.front(), close_share_)) {
                misses_.add(value, reading.sign - trial->sign);
            }
        }
    }

    // What trials say of the whole part, set right by what whole runs since have shown.
    [[nodiscard]] std::optional<Reading> read(double value, const Expected& expected) const {
        const std::optional<Reading> reading = read_expected(search_, expected, close_share_);
        return reading ? std::optional(misses_.corrected(*reading, value, search_.aim)) : reading;
    }

    [[nodiscard]] SignChange ask_trials() {
        const auto [from, to] = stretch_to_look_in(runs_);
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

    void hear(double value, const QuickAnswer& answer, const std::optional<Expected>& expected) {
        const std::optional<Reading> reading = expected ? read(value, *expected) : std::nullopt;
        const bool is_own = runs_.best() && !expected && answer.numbers; // set beside itself
        if (!is_own) {
            tell({false, value, figure_of(reading), answer.seconds});
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
        std::optional<ValueTrial> now = told_at(told_, bound);
        if (now && !now->is_check && has_trials_ && !is_stopped()) {
            const auto expected = trials_.expect({bound});
            if (!expected.empty() && expected.front()) {
                const std::optional<Reading> reading = read(bound, *expected.front());
                now->figure = reading ? figure_of(reading) : now->figure;
            }
        }
        return now;
    }

    ValueFound ended(SearchEnd end) {
        ValueFound found;
        found.end = end;
        if (runs_.best()) {
            found.value = runs_.best()->value;
            found.figure = runs_.best()->reading->figure;
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
    WholeRuns runs_;
    QuickTrials trials_;
    TrialMisses misses_;
    std::shared_ptr<const JobResult> result_; // of the best
    std::vector<ValueTrial> told_;
    double close_share_ = 0.8;
    bool has_trials_ = false;
    bool is_unknown_ = false;
};

} // namespace

ValueFound find_value(const ValueSearch& search, const SearchWorks& works, const Monitor& monitor) {
    return Search(search, works, monitor).run();
}

} // namespace flangewright::process
