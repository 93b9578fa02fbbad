// How likely the part is to split, in plain sentences.
#pragma once

#include "solver/findings/chance.hpp"

#include <string>

namespace flangewright::tables {

/// The heading these sentences stand under.
inline constexpr const char* chance_heading = "How likely to split";

/// "fewer than 1", "about 7", "about 35", "more than 99" of 100: whole below 10 and above 90, to
/// the next 5 between, since the bands carry no more. Units: chance 0 to 1. Source: own choice.
/// Fails: never.
[[nodiscard]] std::string of_a_hundred(double chance);

/// "Of 100 such parts about 7 would split, ...", with the drawn figure where it is more than three
/// points off; or why no number is given. Units: none. Source: docs/theory-findings.md, "Chance of
/// splitting". Fails: never.
[[nodiscard]] std::string chance_sentence(const findings::Chance& chance);

/// What the number is not; empty where none is given. Units: none. Source: as above. Fails: never.
[[nodiscard]] std::string chance_caution(const findings::Chance& chance);

} // namespace flangewright::tables
