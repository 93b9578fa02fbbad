// Keeps a run's state in its folder, so that a run that was stopped or killed can go on.
#pragma once

#include "io/command_line/run_log.hpp"
#include "io/command_line/terminal.hpp"
#include "solver/process/run_state.hpp"

#include <filesystem>
#include <string>

namespace flangewright::command_line {

/// Writes the state whole each time. When the disk refuses the run goes on, and the user is told
/// once.
class StateKeeper {
public:
    StateKeeper(
        std::filesystem::path folder, std::string case_text, RunLog& log, Terminal& terminal
    )
        : folder_(std::move(folder)), case_text_(std::move(case_text)), log_(log),
          terminal_(terminal) {}

    void keep(const process::RunState& state);

private:
    std::filesystem::path folder_;
    std::string case_text_;
    RunLog& log_;
    Terminal& terminal_;
    bool has_failed_ = false;
};

/// "1 of 2 steps done, 35.0 % of the next one". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string state_words(const process::RunState& state, const job::Job& job);

} // namespace flangewright::command_line
