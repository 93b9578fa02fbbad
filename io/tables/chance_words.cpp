#include "io/tables/chance_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::tables {

std::string of_a_hundred(double chance) {
    const double n = 100 * chance;
    if (n < 1) {
        return "fewer than 1";
    }
    if (n > 99) {
        return "more than 99";
    }
    const bool is_far_from_even = n < 10 || n > 90;
    return fmt::format("about {:.0f}", is_far_from_even ? std::round(n) : 5 * std::round(n / 5));
}

std::string chance_sentence(const findings::Chance& chance) {
    if (!chance.first_order) {
        return "No chance of splitting is given. " + chance.why_not;
    }
    std::string sentence = fmt::format(
        "Of 100 such parts {} would split, if sheet, tools, friction and edge scatter as stated "
        "(each band taken as two standard deviations). The {} decides: {:.0f} % of its limit is "
        "used, give or take {:.0f} (one standard deviation).",
        of_a_hundred(*chance.first_order),
        chance.place,
        100 * chance.share,
        100 * chance.deviation
    );
    constexpr double a_few_points = 0.03;
    if (std::abs(chance.by_draws - *chance.first_order) > a_few_points) {
        sentence += fmt::format(
            " Drawn by lot on the same slopes, with all places counted and what they bear divided "
            "by, it is {} of 100: trust neither figure more than the other.",
            of_a_hundred(chance.by_draws)
        );
    }
    return sentence;
}

std::string chance_caution(const findings::Chance& chance) {
    return chance.first_order
        ? "This is no safety factor and no approval. It takes the model, the mesh and the stated "
          "limits as right, the bend table as it stands, and all scatter as independent; it knows "
          "nothing of a nick in the edge, of another sheet than stated or of a slip of the hand. "
          "The bands are what the case says, not what was measured on this lot."
        : "";
}

} // namespace flangewright::tables
