// A part that was read: its case, the run that foretold it, what was measured.
#pragma once

#include "io/build_log/bias_file.hpp"
#include "io/build_log/comparison.hpp"
#include "io/build_log/edge_witness.hpp"
#include "io/build_log/found_run.hpp"
#include "io/build_log/readings.hpp"
#include "io/case_file/case_file.hpp"
#include "io/command_line/arguments.hpp"
#include "io/command_line/log_command.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace flangewright::command_line {

/// Everything that `log` writes comes out of this.
struct LoggedPart {
    const LogArguments& arguments;
    const LogSurroundings& around;
    const case_file::CaseFile& file;
    std::filesystem::path folder; ///< of the run
    std::string lot;
    std::string part;
    build_log::FoundRun run;
    build_log::Readings readings;
    std::vector<build_log::BiasRow> bias; ///< of earlier parts
    std::vector<build_log::Compared> compared;
    build_log::EdgeWitness witness;
};

/// Reads run, table and notes, and sets predicted beside measured. Fails: with the first problem of
/// any of them, by file and line.
[[nodiscard]] Result<LoggedPart, key_file::InputProblem> logged_part(
    const LogArguments& arguments, const LogSurroundings& around, const case_file::CaseFile& file
);

} // namespace flangewright::command_line
