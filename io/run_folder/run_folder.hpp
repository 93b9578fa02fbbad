// Everything a run leaves on the disk, in one folder.
#pragma once

#include "io/case_file/log_entry.hpp"
#include "io/display/screen.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/units/length.hpp"
#include "mesh/base/result.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace flangewright::run_folder {

/// What is to be written, and where.
struct OutputRequest {
    std::filesystem::path directory; ///< made when missing
    job::Job job;
    units::LengthUnit unit = units::LengthUnit::millimetre; ///< the user's own
    bool with_pictures = true;
    std::string program_version;
    std::string case_file; ///< as the user named it
    std::string run_mark = {}; ///< for the summary: what a finished run is known by
    std::vector<std::string> rounded_kinks = {}; ///< of the bend line, for the page
    std::string date = {}; ///< year-month-day; empty: today
    case_file::LogEntry log = {}; ///< for the page
    std::vector<std::string> own_experience = {}; ///< with earlier parts, for the page
    display::ScreenSearch screen = display::Screen::from_surroundings();
};

/// What was written.
struct WrittenOutputs {
    std::vector<std::filesystem::path> files;
    std::vector<std::string> warnings; ///< plain sentences, e.g. that pictures were left out
    double seconds = 0; ///< wall clock
};

/// Writes fields, history, tables, pictures, page and, last, summary.json. Each file is whole or
/// not there. A released part is shown set on the block. Pictures are drawn in a child process;
/// trouble with them is a warning. Files of an earlier run that this one does not write again are
/// removed from steps/, history/, pictures/. Units: mm, N, MPa, rad in; files say theirs. Source:
/// docs/outputs.md. Fails: when the disk refuses; what was written before stays.
[[nodiscard]] Result<WrittenOutputs>
write_outputs(const OutputRequest& request, const process::JobResult& result);

} // namespace flangewright::run_folder
