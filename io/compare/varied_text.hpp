// A case file's text with one value changed and all else kept.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <string>
#include <string_view>

namespace flangewright::compare {

/// One key of a case file and the value it shall have, as a user writes it.
struct Setting {
    std::string key; ///< "block.nose_radius", "bend_line.pieces[2].concave"
    std::string value; ///< "3mm", without quotes
};

/// The text with that value at that key; a key that is not there is added to its section. Comments
/// and order stay. Units: as written. Source: TOML 1.0. Fails: when the text is no key file, or the
/// key holds more than a single value.
[[nodiscard]] Result<std::string, key_file::InputProblem>
varied_text(std::string_view text, const Setting& setting, const std::string& file);

/// What a key holds, as text; empty when it is not there or no text. Units: none. Source: none
/// needed. Fails: never.
[[nodiscard]] std::string text_at(std::string_view text, const std::string& key);

} // namespace flangewright::compare
