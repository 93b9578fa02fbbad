// Says in shop words what is wrong with a line that is not a key and a value.
#pragma once

#include "io/key_file/input_problem.hpp"

#include <string_view>

namespace flangewright::key_file {

/// Looks at the line the reader stopped in and names the likeliest slip.
[[nodiscard]] InputProblem
syntax_problem(std::string_view text, const std::string& file, int line, bool is_repeated);

} // namespace flangewright::key_file
