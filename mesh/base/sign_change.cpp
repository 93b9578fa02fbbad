#include "mesh/base/sign_change.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace flangewright {

namespace {

bool is_beyond(double figure) {
    return figure > 0; // 0 itself counts to the side below
}

class Search {
public:
    Search(const SignSearch& search, const FiguresAt& figures_at)
        : search_(search), figures_at_(figures_at) {}

    SignChange run() {
        std::vector<double> next{search_.from, search_.to};
        for (int round = 0; round < search_.n_rounds_most; ++round) {
            if (!ask(next)) {
                return ended(SignEnd::stopped);
            }
            find_sides();
            if (const std::optional<double> near = near_enough()) {
                return ended(SignEnd::found, *near);
            }
            next = has_sides_ ? between_sides() : beside_gaps();
            if (next.empty()) {
                return ended(has_sides_ ? SignEnd::found : without_sides());
            }
        }
        return ended(has_sides_ ? SignEnd::rounds_used : without_sides());
    }

private:
    bool ask(const std::vector<double>& places) {
        const std::vector<std::optional<double>> figures = figures_at_(places);
        if (figures.size() != places.size()) {
            return false;
        }
        for (std::size_t i = 0; i < places.size(); ++i) {
            const bool is_known = figures[i] && std::isfinite(*figures[i]);
            tried_.push_back({places[i], is_known ? figures[i] : std::nullopt});
        }
        std::ranges::sort(tried_, {}, &TriedPoint::at);
        return true;
    }

    void find_sides() {
        const bool had_sides = has_sides_;
        const double width_before = above_.at - below_.at;
        const TriedPoint* before = nullptr;
        for (const TriedPoint& point : tried_) {
            if (!point.figure) {
                continue;
            }
            if (before != nullptr && is_beyond(*before->figure) != is_beyond(*point.figure)) {
                below_ = *before;
                above_ = point;
                has_sides_ = true;
                is_slow_ = had_sides && above_.at - below_.at > 0.5 * width_before;
                return;
            }
            before = &point;
        }
    }

    [[nodiscard]] std::optional<double> near_enough() const {
        const auto is_near = [this](const TriedPoint& point) {
            return point.figure && std::abs(*point.figure) <= search_.figure_tolerance;
        };
        const auto found = std::ranges::find_if(tried_, is_near);
        return found == tried_.end() ? std::nullopt : std::optional(found->at);
    }

    [[nodiscard]] double straight_between() const {
        const double share = *below_.figure / (*below_.figure - *above_.figure);
        return below_.at + share * (above_.at - below_.at);
    }

    // Nothing when both sides are near enough to each other.
    [[nodiscard]] std::vector<double> between_sides() const {
        const double width = above_.at - below_.at;
        if (width <= search_.tolerance) {
            return {};
        }
        if (has_gap(below_.at, above_.at)) {
            return middle_of_widest(below_.at, above_.at);
        }
        const int n = std::max(search_.n_at_once, 1);
        if (is_slow_) {
            return equal_parts(n, width);
        }
        const double guess = straight_between();
        if (n == 1) {
            // A little past the guess, toward the side further off, so that this side comes nearer.
            const bool is_nearer_below = guess - below_.at < above_.at - guess;
            return inside({guess + (is_nearer_below ? 0.4 : -0.4) * search_.tolerance});
        }
        const double half = 0.5 * std::max(0.9 * search_.tolerance, 0.1 * width);
        return inside({guess - half, guess + half});
    }

    // A pair is kept whole and inside when it would reach past a side.
    [[nodiscard]] std::vector<double> inside(std::vector<double> places) const {
        const double rim = 0.02 * (above_.at - below_.at);
        const double most = above_.at - rim;
        const double least = below_.at + rim;
        const double back = std::max(0.0, places.back() - most);
        const double on = std::max(0.0, least - places.front());
        for (double& place : places) {
            place += on - back;
        }
        return places;
    }

    [[nodiscard]] std::vector<double> equal_parts(int n, double width) const {
        std::vector<double> places;
        for (int i = 1; i <= n; ++i) {
            places.push_back(below_.at + i * width / (n + 1));
        }
        return places;
    }

    [[nodiscard]] bool has_gap(double from, double to) const {
        return std::ranges::any_of(tried_, [&](const TriedPoint& point) {
            return !point.figure && point.at > from && point.at < to;
        });
    }

    // Of the neighbours in a stretch; nothing when they lie near enough.
    [[nodiscard]] std::vector<double> middle_of_widest(double from, double to) const {
        double widest = search_.tolerance;
        std::vector<double> middle;
        for (std::size_t i = 1; i < tried_.size(); ++i) {
            const TriedPoint& one = tried_[i - 1];
            const TriedPoint& next = tried_[i];
            const bool knows_both = one.figure && next.figure;
            if (one.at >= from && next.at <= to && next.at - one.at > widest && !knows_both) {
                widest = next.at - one.at;
                middle = {0.5 * (one.at + next.at)};
            }
        }
        return middle;
    }

    // A change may hide between a point that is known and one that is not. A search that would go
    // on for ever round a gap is ended by its rounds.
    std::vector<double> beside_gaps() {
        constexpr int most = 6;
        return ++n_beside_gaps_ > most ? std::vector<double>{}
                                       : middle_of_widest(search_.from, search_.to);
    }

    [[nodiscard]] SignEnd without_sides() const {
        const bool is_any = std::ranges::any_of(tried_, [](const TriedPoint& point) {
            return point.figure.has_value();
        });
        return is_any ? SignEnd::no_change : SignEnd::no_figure;
    }

    [[nodiscard]] SignChange ended(SignEnd end, std::optional<double> at = {}) const {
        SignChange change{end, search_.from, {}, {}, tried_};
        if (has_sides_) {
            change.at = straight_between();
            change.below = below_;
            change.above = above_;
        }
        change.at = at.value_or(change.at);
        return change;
    }

    const SignSearch& search_;
    const FiguresAt& figures_at_;
    std::vector<TriedPoint> tried_;
    TriedPoint below_;
    TriedPoint above_;
    bool has_sides_ = false;
    bool is_slow_ = false; // the last round did not halve the stretch
    int n_beside_gaps_ = 0;
};

} // namespace

SignChange find_sign_change(const SignSearch& search, const FiguresAt& figures_at) {
    return Search(search, figures_at).run();
}

} // namespace flangewright
