// Finds the place where a costly function changes its sign, a few points at a time.
#pragma once

#include <functional>
#include <optional>
#include <vector>

namespace flangewright {

/// One point that was tried; no figure where the function has none.
struct TriedPoint {
    double at = 0;
    std::optional<double> figure = {};
};

/// What is looked for, between two bounds.
struct SignSearch {
    double from = 0; ///< below `to`
    double to = 1;
    double tolerance = 1e-6; ///< of the place: the two sides come as near as this
    double figure_tolerance = 0; ///< a figure as near to 0 ends the search, too
    int n_at_once = 1; ///< points that are asked for together
    int n_rounds_most = 40;
};

/// How a search ended.
enum class SignEnd {
    found,
    no_change, ///< the figures known have one sign
    no_figure, ///< none is known
    rounds_used, ///< a change lies between the two sides, further apart than asked
    stopped,
};

/// Where it ended. Both sides are there from the first change seen on.
struct SignChange {
    SignEnd end = SignEnd::stopped;
    double at = 0; ///< straight between the sides, or the side whose figure is near enough to 0
    std::optional<TriedPoint> below = {}; ///< nearer to `from`
    std::optional<TriedPoint> above = {};
    std::vector<TriedPoint> tried = {}; ///< by growing place
};

/// Answers the figure at each point, in their order; nothing at all when it was asked to stop.
using FiguresAt = std::function<std::vector<std::optional<double>>(const std::vector<double>&)>;

/// Keeps a pair of neighbours of different sign, narrows it about the straight line between them,
/// and by equal parts whenever that did not halve it: a step is found as surely as a slope. Of
/// several changes the one nearest to `from` is followed. A point without a figure is no side: the
/// search looks between it and its neighbours. Units: the owner's. Source: regula falsi and
/// bisection, textbook; the mix of both: derived here. Fails: see SignEnd.
[[nodiscard]] SignChange find_sign_change(const SignSearch& search, const FiguresAt& figures_at);

} // namespace flangewright
