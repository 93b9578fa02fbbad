// What flangewright solve-for says: each solve as it ends, the answer, and the same as JSON.
#pragma once

#include "io/command_line/solve_for_question.hpp"
#include "solver/process/even_angle.hpp"

#include <optional>
#include <string>

namespace flangewright::command_line {

/// All that was found. `along` only where the wall was sought station by station.
struct Answer {
    std::optional<process::ValueFound> one;
    std::optional<process::AlongFound> along;
    std::vector<double> stations; ///< of `along`
    std::vector<double> wanted; ///< at them, rad
    std::string no_along; ///< why the angle, though it differs along the line, was left so

    /// Whether the walls along the line are the answer. Units: none.
    [[nodiscard]] bool is_along() const { return along && along->nearest; }
    /// Whether there is an answer; else what is nearest to one. Units: none.
    [[nodiscard]] bool is_found() const;
    /// The run of the value or the walls found; empty when none was.
    [[nodiscard]] const process::JobResult* check() const;
};

/// What is asked, and the heads of the columns that trial_line() and along_line() fill.
[[nodiscard]] std::string question_text(const Question& question);

/// One solve. Units: shown in the user's.
[[nodiscard]] std::string trial_line(const Question& question, const process::ValueTrial& trial);
[[nodiscard]] std::string along_line(const process::AlongRun& run);

/// The answer with its check run, or why there is none. Units: shown in the user's.
[[nodiscard]] std::string answer_text(const Question& question, const Answer& answer);

/// Keys as docs/choosing.md has them. Units: mm, deg, s.
[[nodiscard]] std::string
answer_json(const Question& question, const Answer& answer, const std::string& program_version);

} // namespace flangewright::command_line
