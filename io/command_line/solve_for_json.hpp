// What flangewright solve-for found, for programs.
#pragma once

#include "io/command_line/solve_for_answer.hpp"

namespace flangewright::command_line {

/// Keys as docs/choosing.md has them. Units: mm, deg, s.
[[nodiscard]] std::string
answer_json(const Question& question, const Answer& answer, const std::string& program_version);

} // namespace flangewright::command_line
