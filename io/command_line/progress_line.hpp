// One line on the terminal that shows how far a run has come, drawn again and again.
#pragma once

#include "io/command_line/terminal.hpp"
#include "mesh/base/progress.hpp"

#include <chrono>
#include <string>

namespace flangewright::command_line {

/// "bend-down 47.5 deg, 312 iterations, about 2 min left". Units: takes rad and s.
[[nodiscard]] std::string progress_text(const Progress& progress);

/// Draws at most ten times a second, and nothing at all when nobody watches.
class ProgressLine {
public:
    explicit ProgressLine(Terminal& terminal) : terminal_(terminal) {}
    ~ProgressLine() { clear(); }
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void show(const Progress& progress);
    /// Takes the line away, so that other text can follow.
    void clear();

private:
    Terminal& terminal_;
    std::chrono::steady_clock::time_point drawn_at_{};
    bool is_drawn_ = false;
};

} // namespace flangewright::command_line
