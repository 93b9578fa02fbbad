// What a comparison leaves on the disk and says on the screen.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/compare/judgement.hpp"
#include "io/compare/study.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace flangewright::command_line {

/// The study whose results are written.
struct WrittenStudy {
    const CompareArguments& arguments;
    std::filesystem::path folder;
    const std::vector<compare::Variant>& variants;
};

/// Writes compare.csv, compare.json and, last, compare.html, whose path it gives. Fails: when the
/// disk refuses.
[[nodiscard]] Result<std::filesystem::path>
write_results(const WrittenStudy& study, const std::vector<compare::ComparedRun>& runs);

/// The table in short and the advice, for a terminal.
[[nodiscard]] std::string results_text(const std::vector<compare::ComparedRun>& runs);

} // namespace flangewright::command_line
