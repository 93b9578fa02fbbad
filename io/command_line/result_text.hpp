// What a finished run says on the terminal: verdict, key figures beside the hand calculation.
#pragma once

#include "io/units/length.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::command_line {

/// Units: shown in `unit`, degrees and per cent.
[[nodiscard]] std::string
result_text(const job::Job& job, const process::JobResult& result, units::LengthUnit unit);

} // namespace flangewright::command_line
