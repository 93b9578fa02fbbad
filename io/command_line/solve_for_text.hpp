// What flangewright solve-for says: each solve as it ends, and the answer.
#pragma once

#include "io/command_line/solve_for_answer.hpp"

namespace flangewright::command_line {

/// What is asked, and the heads of the columns that trial_line() and along_line() fill.
[[nodiscard]] std::string question_text(const Question& question);

/// One solve. Units: shown in the user's.
[[nodiscard]] std::string trial_line(const Question& question, const process::ValueTrial& trial);
[[nodiscard]] std::string along_line(const process::AlongRun& run);

/// The answer with its check run, or why there is none. Units: shown in the user's.
[[nodiscard]] std::string answer_text(const Question& question, const Answer& answer);

} // namespace flangewright::command_line
