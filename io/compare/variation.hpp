// What is varied: a key with its values, and all combinations of several.
#pragma once

#include "io/compare/varied_text.hpp"

#include <vector>

namespace flangewright::compare {

/// A key and the values it takes in turn; a single value is set in every variant.
struct Variation {
    std::string key;
    std::vector<std::string> values;
};

/// Reads "block.nose_radius=3mm,4.5mm,6mm". Units: as written. Source: none needed. Fails: without
/// key, "=" or values, with an empty value, or the same value twice.
[[nodiscard]] Result<Variation, key_file::InputProblem> read_variation(const std::string& word);

/// Reads them all. Fails: with every problem, also of a key that is named twice.
[[nodiscard]] Result<std::vector<Variation>, std::vector<key_file::InputProblem>>
read_variations(const std::vector<std::string>& words);

/// All combinations, the last key changing fastest; one empty combination of nothing. Units: as
/// written. Source: none needed. Fails: never.
[[nodiscard]] std::vector<std::vector<Setting>>
combinations(const std::vector<Variation>& variations);

} // namespace flangewright::compare
