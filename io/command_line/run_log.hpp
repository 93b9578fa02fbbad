// run.log: what a run did and when, written as it happens.
#pragma once

#include "mesh/base/result.hpp"

#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>

namespace flangewright::command_line {

/// True when the folder holds a log of this program, finished or not: its files are ours.
[[nodiscard]] bool holds_run_log(const std::filesystem::path& folder);

/// Grows under a name of its own; becomes run.log when finished, so that run.log is always whole.
class RunLog {
public:
    explicit RunLog(const std::filesystem::path& folder);

    /// One line with the seconds since the start before it.
    void note(const std::string& line);
    /// Fails: when the disk refuses.
    [[nodiscard]] Result<std::filesystem::path> finish();

private:
    std::filesystem::path folder_;
    std::ofstream stream_;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

} // namespace flangewright::command_line
