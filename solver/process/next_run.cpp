#include "solver/process/next_run.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::process {

namespace {

class Choosing {
public:
    explicit Choosing(const NextRunFacts& facts)
        : facts_(facts), search_(facts.search), runs_(facts.runs) {}

    [[nodiscard]] NextRun run(const std::optional<SignChange>& change) const {
        const auto sides = runs_.sides();
        const auto [from, to] = stretch_to_look_in(runs_);
        if (!change) {
            return sides ? between(*sides) : beyond(from, to);
        }
        if (change->below) {
            return at_change(*change, sides);
        }
        return sides ? between(*sides) : without_change(*change, from, to);
    }

private:
    static NextRun at(double value) { return {value, SearchEnd::not_near}; }
    static NextRun ended(SearchEnd why) { return {std::nullopt, why}; }

    [[nodiscard]] NextRun
    at_change(const SignChange& change, const std::optional<std::pair<Check, Check>>& sides) const {
        const double way =
            runs_.nearest() < runs_.furthest() ? 1 : -1; // on to where it is not kept
        // A share is to be kept: a little to that side of where the trials put the border.
        const bool is_angle = search_.aim == Aim::flange_angle;
        double aimed = change.at - (is_angle ? 0 : way * 0.3 * search_.tolerance);
        if (runs_.keeps_share() && std::abs(change.at - runs_.best()->value) <= search_.tolerance) {
            // Where the share is far from what it may be, it jumps there: a run beyond tells.
            constexpr double believable = -0.1;
            if (runs_.best()->reading->sign >= believable) {
                return ended(SearchEnd::found);
            }
            aimed = runs_.best()->value + way * 0.9 * search_.tolerance;
        }
        const double next = facts_.rounded(std::clamp(aimed, search_.from, search_.to));
        if (!runs_.is_checked(next)) {
            return at(next);
        }
        return sides ? between(*sides) : ended(SearchEnd::not_near);
    }

    // Straight between two whole runs, but not next to either.
    [[nodiscard]] NextRun between(const std::pair<Check, Check>& sides) const {
        const auto& [below, above] = sides;
        const double share = below.reading->sign / (below.reading->sign - above.reading->sign);
        const double next =
            facts_.rounded(below.value + std::clamp(share, 0.1, 0.9) * (above.value - below.value));
        return runs_.is_checked(next) ? ended(SearchEnd::not_near) : at(next);
    }

    // The trials see no change: a whole run at the bound where it is nearest says whether it is so.
    [[nodiscard]] NextRun without_change(const SignChange& change, double from, double to) const {
        if (change.end != SignEnd::no_change) {
            return beyond(from, to);
        }
        const auto size = [](const TriedPoint& point) {
            return point.figure ? std::abs(*point.figure) : INFINITY;
        };
        double bound = std::ranges::min_element(change.tried, {}, size)->at;
        if (runs_.keeps_share()) {
            bound = runs_.furthest();
        }
        return runs_.is_checked(bound) ? beyond(from, to) : at(bound);
    }

    // No change known: the bounds by whole runs, and half the way to one that finds no balance.
    [[nodiscard]] NextRun beyond(double from, double to) const {
        if (runs_.keeps_share() && runs_.best()->value == runs_.furthest()) {
            return ended(SearchEnd::at_bound);
        }
        const bool has_no_change =
            facts_.has_trials || (runs_.is_known(search_.from) && runs_.is_known(search_.to));
        for (const double bound : {runs_.furthest(), runs_.nearest()}) {
            if (!runs_.is_checked(bound) && !facts_.has_trials) {
                return at(bound);
            }
        }
        for (const double bound : {from, to}) {
            const double middle = facts_.rounded(0.5 * (bound + runs_.best()->value));
            const bool is_gap = runs_.is_checked(bound) && !runs_.is_known(bound);
            if (is_gap && std::abs(bound - runs_.best()->value) > search_.tolerance
                && !runs_.is_checked(middle)) {
                return at(middle);
            }
        }
        return ended(has_no_change ? SearchEnd::none_in_bounds : SearchEnd::no_balance);
    }

    const NextRunFacts& facts_;
    const ValueSearch& search_;
    const WholeRuns& runs_;
};

} // namespace

std::pair<double, double> stretch_to_look_in(const WholeRuns& runs) {
    if (const auto sides = runs.sides()) {
        return {sides->first.value, sides->second.value};
    }
    return runs.stretch();
}

NextRun next_run(const NextRunFacts& facts, const std::optional<SignChange>& change) {
    return Choosing(facts).run(change);
}

} // namespace flangewright::process
