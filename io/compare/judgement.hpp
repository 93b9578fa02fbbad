// Which variant is best, where a difference means something, and one sentence of advice.
#pragma once

#include "io/compare/run_record.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace flangewright::compare {

/// A variant's name for people and what came of it.
struct ComparedRun {
    std::string label;
    RunRecord record;
};

/// How a figure stands to the same figure of another run.
enum class Difference {
    unknown, ///< a value or every error bar is missing
    within_errors,
    beyond_errors
};

/// Errors of both together as the root of the sum of squares. The errors of two variants of one
/// part are alike in sign, so that this errs to the careful side. Units: as the figures. Source:
/// independent errors, textbook. Fails: never.
[[nodiscard]] Difference difference(const Figure& one, const Figure& other);

/// Place in the list of the run with the best word (holds, close, splits, unknown), among these
/// with the smallest share; nothing when none is done. Units: none. Source: own choice. Fails:
/// never.
[[nodiscard]] std::optional<std::size_t> best_run(const std::vector<ComparedRun>& runs);

/// What the table says, with its reason, and what it does not say. Units: none. Source: own choice
/// (docs/choosing.md, "Compare"). Fails: never.
[[nodiscard]] std::string advice(const std::vector<ComparedRun>& runs);

} // namespace flangewright::compare
