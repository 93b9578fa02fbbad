// How likely a part is to split when sheet, tools and edge scatter about what the case says.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace flangewright::findings {

/// A band reaches so many standard deviations to either side. Source: own choice.
inline constexpr double deviations_in_a_band = 2;

/// One limit, and what each thing that varies does to it when moved by its band.
struct LimitMoves {
    std::string place; ///< as in the verdict
    double share = 0; ///< as run: reached over allowed
    std::vector<double> moves = {}; ///< of what is reached, over its value; signed
    double limit_band = 0; ///< of what is allowed, over its value
};

/// Chance of splitting, 0 to 1.
struct Chance {
    std::optional<double> first_order; ///< of the likeliest place; empty: not given
    double by_draws = 0; ///< of any place, on the same slopes
    std::string place; ///< the likeliest
    double share = 0; ///< used there
    double deviation = 0; ///< standard deviation of that share
    std::string why_not; ///< it is not given, a plain sentence
};

/// First order: the share is normal about its value, its variance the sum of those of what varies,
/// and the chance that of more than 1; of the likeliest place. Beside it the share of 100 000 draws
/// (always the same ones) in which any place has more reached than allowed, both straight in what
/// varies, all things normal and independent but common to all places.
/// Units: none. Source: first-order second-moment propagation, textbook (docs/theory-findings.md,
/// "Chance of splitting"). Fails: not given without limits.
[[nodiscard]] Chance chance_of_splitting(std::span<const LimitMoves> limits);

/// Share of a normal distribution beyond a limit; a deviation of 0 is a step. Units: as given.
/// Source: textbook (error function). Fails: never.
[[nodiscard]] double normal_beyond(double limit, double mean, double deviation);

} // namespace flangewright::findings
