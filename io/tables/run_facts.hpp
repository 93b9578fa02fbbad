// What the outputs must say about the run besides its numbers.
#pragma once

#include "io/case_file/log_entry.hpp"
#include "io/tables/shown_length.hpp"

#include <string>
#include <vector>

namespace flangewright::tables {

/// Who computed what, when, and how the user reads lengths.
struct RunFacts {
    std::string program_version;
    std::string case_file; ///< as the user named it
    std::string run_mark = {}; ///< of job, version and options; empty: not known
    std::string date; ///< of the run, year-month-day
    units::LengthUnit unit = units::LengthUnit::millimetre;
    std::vector<std::string> rounded_kinks =
        {}; ///< of the bend line: what was there and the radius
    double seconds_output = 0; ///< wall clock, writing and drawing
    std::vector<std::string> output_warnings; ///< plain sentences
    case_file::LogEntry log = {}; ///< what the user wrote of drawing, part and lot
    std::vector<std::string> own_experience = {}; ///< earlier parts: predicted against measured
};

} // namespace flangewright::tables
