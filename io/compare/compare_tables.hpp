// The comparison for other programs.
#pragma once

#include "io/compare/judgement.hpp"

#include <string>
#include <vector>

namespace flangewright::compare {

/// What identifies the study and its runs.
struct TableFacts {
    std::string program_version;
    std::string date;
    std::string command;
    std::vector<std::string> names; ///< of the run folders, below runs/
};

/// One row per variant; unknown figures are empty cells. Units: in the head line. Source:
/// docs/outputs.md. Fails: never.
[[nodiscard]] std::string
compare_csv(const TableFacts& facts, const std::vector<ComparedRun>& runs);

/// The same, with errors, marks and the advice. Units: endings of the keys. Source:
/// docs/outputs.md. Fails: never.
[[nodiscard]] std::string
compare_json(const TableFacts& facts, const std::vector<ComparedRun>& runs);

} // namespace flangewright::compare
