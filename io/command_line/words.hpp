// Sentences that several commands say.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <string>
#include <vector>

namespace flangewright::command_line {

/// One line for trouble outside the program.
[[nodiscard]] std::string line_for(const OutsideProblem& problem);

/// A line for each problem and one that counts them.
[[nodiscard]] std::string lines_for(const std::vector<key_file::InputProblem>& problems);

/// The caution that stands under every figure on the terminal.
[[nodiscard]] std::string caution();

/// The text broken between words into lines of at most so many letters, each set in by two blanks.
/// A longer word stands alone on its line.
[[nodiscard]] std::string as_lines(const std::string& text, std::size_t width = 92);

/// Rows in two or three columns, padded so that they stand beneath each other.
[[nodiscard]] std::string as_columns(const std::vector<std::vector<std::string>>& rows);

} // namespace flangewright::command_line
