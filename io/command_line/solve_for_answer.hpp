// What a search has found.
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
    outline::Profile wanted; ///< of `along`, over the station, rad
    std::string no_along; ///< why the angle, though it differs along the line, was left so

    /// Whether the walls along the line are the answer. Units: none.
    [[nodiscard]] bool is_along() const { return along && along->nearest; }
    /// Whether there is an answer; else what is nearest to one. Units: none.
    [[nodiscard]] bool is_found() const;
    /// The run of the value or the walls found; empty when none was.
    [[nodiscard]] const process::JobResult* check() const;
};

} // namespace flangewright::command_line
