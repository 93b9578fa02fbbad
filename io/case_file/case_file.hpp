// Reads a case file into a job: numbers checked, units gone.
#pragma once

#include "io/case_file/log_entry.hpp"
#include "io/drawing/rounded_kink.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/key_file/reading.hpp"
#include "io/units/length.hpp"
#include "mesh/base/result.hpp"
#include "solver/job/job.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::case_file {

using key_file::InputProblem;

/// What a case file says.
struct CaseFile {
    job::Job job;
    units::LengthUnit unit = units::LengthUnit::millimetre; ///< in which the user writes lengths
    std::vector<drawing::RoundedKink> rounded_kinks; ///< of the bend line, in order along it
    bool states_depth = false; ///< the drawing's flange depth, not a flat width
    outline::Profile flange_depths = {}; ///< that depth over station; empty: alike all along
    bool states_rolling_direction = false;
    LogEntry log; ///< for the page of record
};

/// The case, or everything that is wrong with it, from the top of the file down.
using CaseFileResult = Result<CaseFile, std::vector<InputProblem>>;

/// Units: the job in mm, MPa, rad. Source: docs/case-file.md. Fails: with every problem found; a
/// file that can't be read, or isn't key = value lines, gives one.
[[nodiscard]] CaseFileResult read_case_file(const std::filesystem::path& path);

/// The same for a text at hand; `file` is only its name.
[[nodiscard]] CaseFileResult read_case_text(std::string_view text, const std::string& file);

/// The keys the reader looks for in such a text, each as often as it does; which these are hangs on
/// what the text says. Fails: never; none for a text that isn't key = value lines.
[[nodiscard]] std::vector<key_file::AskedKey>
keys_asked(std::string_view text, const std::string& file);

} // namespace flangewright::case_file
