// Words and figures that all texts of a search share.
#pragma once

#include "io/command_line/solve_for_question.hpp"

namespace flangewright::command_line {

/// "90.12 deg". Units: rad.
[[nodiscard]] std::string angle_text(double angle);

/// A flange angle, or the share of a limit, as the question asks for the one or the other.
[[nodiscard]] std::string figure_text(const Question& question, double figure);

/// "smallest plan radius".
[[nodiscard]] const char* name_of(SolveFor what);

/// What the value shall bring about.
[[nodiscard]] std::string wanted_words(const Question& question);

} // namespace flangewright::command_line
