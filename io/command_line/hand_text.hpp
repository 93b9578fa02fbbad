// The hand calculation of a job, as text.
#pragma once

#include "io/case_file/case_file.hpp"
#include "solver/findings/findings.hpp"

#include <string>

namespace flangewright::command_line {

/// Kinks of the drawing that are arcs now; empty without any. Units: shown in the file's unit.
[[nodiscard]] std::string kinks_text(const case_file::CaseFile& file);

/// What sheet it is and how sure its data are. Units: shown in the file's unit.
[[nodiscard]] std::string sheet_text(const case_file::CaseFile& file);

/// Flat pattern, stretch and springback by hand. Units: shown in the file's unit.
[[nodiscard]] std::string
hand_text(const case_file::CaseFile& file, const findings::HandCalculation& hand);

} // namespace flangewright::command_line
