// Puts another value into a user's file of keys and leaves everything else as it was written.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <string>

namespace flangewright::key_file {

/// Which key of which section.
struct KeyName {
    std::string section;
    std::string key;
};

/// The text with `written` in place of the key's value, comments and layout kept; a key that is not
/// there yet becomes the section's first line. `file` is only the text's name. Read again, nothing
/// but this value may have changed. Fails: for a text that is no file of keys, and for a section
/// written so that the key can't be put in alone.
[[nodiscard]] Result<std::string, InputProblem> with_value(
    const std::string& text,
    const std::string& file,
    const KeyName& name,
    const std::string& written
);

} // namespace flangewright::key_file
