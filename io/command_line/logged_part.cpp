#include "io/command_line/logged_part.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/output_place.hpp"
#include "solver/findings/edge_limit.hpp"

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;

build_log::MeasuredPart measured_part(const job::Job& job, const build_log::FoundRun& run) {
    build_log::MeasuredPart part;
    for (const build_log::StepPrediction& step : run.prediction.steps) {
        part.steps.push_back(step.name);
    }
    part.length = job.blank.line.length();
    part.thickness = job.sheet.thickness;
    return part;
}

/// What the verdict weighs this edge against.
std::optional<double> known_limit(const job::Job& job) {
    return findings::edge_limit(job.sheet.material, job.blank.edge_finish).bears.value;
}

} // namespace

Result<LoggedPart, InputProblem> logged_part(
    const LogArguments& arguments, const LogSurroundings& around, const case_file::CaseFile& file
) {
    LoggedPart part{arguments, around, file, {}, {}, {}, {}, {}, {}, {}, {}};
    part.folder = arguments.out.value_or(default_output_folder(arguments.case_file));
    part.lot = arguments.lot.empty() ? file.log.lot : arguments.lot;
    part.part = arguments.part.empty() ? file.log.part : arguments.part;
    auto run = build_log::find_run(part.folder, file.job, program_version());
    if (!run) {
        return tl::unexpected(run.error());
    }
    part.run = std::move(*run);
    auto readings =
        build_log::read_readings(*arguments.measured_file, measured_part(file.job, part.run));
    if (!readings) {
        return tl::unexpected(readings.error());
    }
    part.readings = std::move(*readings);
    if (around.bias_file) {
        auto bias = build_log::read_bias(*around.bias_file);
        if (!bias) {
            return tl::unexpected(bias.error());
        }
        part.bias = std::move(*bias);
    }
    part.compared = build_log::compared(part.run.prediction, part.readings, file.job);
    part.witness = build_log::edge_witness(part.readings, file.job, known_limit(file.job));
    return part;
}

} // namespace flangewright::command_line
