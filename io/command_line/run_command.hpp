// flangewright run CASE: the whole job, from case file to results.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"
#include "io/run_folder/run_folder.hpp"
#include "solver/process/run_job.hpp"

#include <functional>

namespace flangewright::command_line {

/// The two long works, replaceable so that tests of everything around them are quick.
struct Workshop {
    std::function<
        Result<process::JobResult>(const job::Job&, const process::RunOptions&, const Monitor&)>
        run_job;
    std::function<Result<
        run_folder::WrittenOutputs>(const run_folder::OutputRequest&, const process::JobResult&)>
        write_outputs;
};

/// Returns the exit code.
[[nodiscard]] int
run_case(const RunArguments& arguments, Terminal& terminal, const Workshop& workshop);

} // namespace flangewright::command_line
