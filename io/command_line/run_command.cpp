#include "io/command_line/run_command.hpp"

#include "io/build_log/bias_file.hpp"
#include "io/case_file/case_file.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/from_step.hpp"
#include "io/command_line/output_place.hpp"
#include "io/command_line/progress_line.hpp"
#include "io/command_line/result_text.hpp"
#include "io/command_line/run_log.hpp"
#include "io/command_line/state_keeper.hpp"
#include "io/command_line/stop_signal.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/text_file.hpp"
#include "io/saved_state/case_text.hpp"
#include "io/saved_state/run_mark.hpp"
#include "io/saved_state/state_file.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flangewright::command_line {

namespace {

using process::JobResult;
using process::StopReason;

int exit_code_for(StopReason reason) {
    switch (reason) {
    case StopReason::done:
        return done;
    case StopReason::no_equilibrium:
        return no_equilibrium;
    case StopReason::stop_requested:
        return interrupted;
    }
    return internal_error;
}

std::string reason_text(StopReason reason) {
    switch (reason) {
    case StopReason::done:
        return "done";
    case StopReason::no_equilibrium:
        return "no equilibrium";
    case StopReason::stop_requested:
        return "stopped as asked";
    }
    return "";
}

// One run: everything that its parts share.
class Run {
public:
    Run(const RunArguments& arguments,
        Terminal& terminal,
        const case_file::CaseFile& file,
        const std::filesystem::path& folder)
        : arguments_(arguments), terminal_(terminal), file_(file), folder_(folder), log_(folder) {
        log_.note("case " + arguments.case_file.string() + ": " + file.job.title);
        log_.note("sheet: " + sheet_library::name_with_origin(file.job.sheet.material));
    }

    int go(const Workshop& workshop) {
        if (const int exit_code = find_state(); exit_code != done) {
            return exit_code;
        }
        const StopSignal signal; // lives on while results are written, so that they come whole
        const Result<JobResult> result = solve(workshop, signal);
        if (!result) {
            return fail(result.error());
        }
        log_steps(*result);
        return result->steps.empty() ? end_without_steps(*result) : write(workshop, *result);
    }

private:
    // Looks for what an earlier run left, or clears it away when this one begins anew.
    int find_state() {
        case_text_ = saved_state::case_text(file_.job, program_version());
        mark_ = mark(); // now: the user may write on in the file while the run goes on
        if (!arguments_.resumes) {
            std::error_code ignored;
            std::filesystem::remove(folder_ / saved_state::file_name, ignored);
            return done;
        }
        auto state = saved_state::read_state(folder_, case_text_);
        if (!state) {
            terminal_.err << lines_for({state.error()});
            return finish(bad_input);
        }
        if (*state) {
            state_ = std::move((*state)->run);
            if (!(*state)->changed.empty()) {
                tell("changed since: " + (*state)->changed + "; the steps before that are kept");
            }
        }
        if (arguments_.from) {
            const Result<std::size_t, key_file::InputProblem> n_kept = steps_before(
                *arguments_.from, file_.job.steps, state_ ? state_->finished.size() : 0
            );
            if (!n_kept) {
                terminal_.err << lines_for({n_kept.error()});
                return finish(bad_input);
            }
            if (state_) {
                state_ = process::cut_back(std::move(*state_), *n_kept);
            }
        }
        tell(
            state_ ? "going on: " + state_words(*state_, file_.job)
                   : "no saved state in " + folder_.string() + ": starting from the beginning"
        );
        return done;
    }

    void tell(const std::string& line) {
        log_.note(line);
        terminal_.out << line << std::endl;
    }

    Result<JobResult> solve(const Workshop& workshop, const StopSignal& signal) {
        ProgressLine line(terminal_);
        Monitor monitor;
        monitor.on_progress = [this, &line](const Progress& progress) {
            line.show(progress);
            if (progress.step != step_) {
                step_ = progress.step;
                log_.note("begins: " + step_);
            }
        };
        monitor.stop = signal.token();
        process::RunOptions options;
        options.n_threads = arguments_.n_threads;
        options.estimates_mesh_error = true;
        options.compares_with_even = arguments_.with_even_drive;
        options.works_out_web_cure = true;
        options.works_out_remedies = arguments_.with_remedies;
        options.begin_from = state_ ? &*state_ : nullptr;
        StateKeeper keeper(folder_, case_text_, log_, terminal_);
        options.keep_state = [&keeper](const process::RunState& state) { keeper.keep(state); };
        return workshop.run_job(file_.job, options, monitor);
    }

    void log_steps(const JobResult& result) {
        for (const process::StepResult& step : result.steps) {
            log_.note(fmt::format(
                "{}: {}, {} increments, {} iterations, {} cut back, relative residual {:.1e}",
                process::name_of(step.kind),
                reason_text(step.report.reason),
                step.report.n_increments,
                step.report.n_iterations,
                step.report.n_cutbacks,
                step.report.residual
            ));
        }
        for (const std::string& warning : result.warnings) {
            log_.note("note: " + warning);
        }
        log_.note(fmt::format(
            "{} degrees of freedom, {} threads, {:.1f} s",
            result.figures.n_degrees_of_freedom,
            result.figures.n_threads,
            result.figures.seconds
        ));
    }

    int write(const Workshop& workshop, const JobResult& result) {
        run_folder::OutputRequest request;
        request.directory = folder_;
        request.job = file_.job;
        request.unit = file_.unit;
        request.with_pictures = arguments_.with_pictures;
        request.program_version = program_version();
        request.case_file = arguments_.case_file.string();
        request.run_mark = mark_;
        for (const drawing::RoundedKink& kink : file_.rounded_kinks) {
            request.rounded_kinks.push_back(
                drawing::name_of(kink) + ": radius " + tables::shown_length(kink.radius, file_.unit)
            );
        }
        request.log = file_.log;
        request.own_experience = own_experience();
        const auto written = workshop.write_outputs(request, result);
        if (!written) {
            return fail(written.error());
        }
        terminal_.out << result_text(file_.job, result, file_.unit);
        for (const std::string& warning : written->warnings) {
            log_.note("note: " + warning);
            terminal_.out << warning << "\n";
        }
        log_.note(fmt::format("{} files written", written->files.size()));
        terminal_.out << "\nPage for the build log: " << (folder_ / "sheet.html").string()
                      << "\nAll results: " << folder_.string() << "\n";
        if (result.reason == StopReason::stop_requested) {
            terminal_.out << "To go on from here: the same command with --resume\n";
        }
        return finish(exit_code_for(result.reason));
    }

    // What earlier parts of this sheet taught; notes that can't be read are told and left alone.
    std::vector<std::string> own_experience() {
        const auto path = build_log::users_bias_file();
        const auto rows = path ? build_log::read_bias(*path)
                               : Result<std::vector<build_log::BiasRow>, key_file::InputProblem>();
        if (!rows) {
            tell("notes of earlier parts are left out: " + key_file::line_for(rows.error()));
            return {};
        }
        return build_log::experience_with(*rows, file_.job.sheet.material.name);
    }

    std::string mark() const {
        const auto text = key_file::read_text_file(arguments_.case_file);
        if (!text) {
            return {};
        }
        saved_state::RunMarkParts parts{.case_file_text = *text};
        parts.program_version = program_version();
        parts.with_pictures = arguments_.with_pictures;
        parts.with_even_drive = arguments_.with_even_drive;
        parts.with_remedies = arguments_.with_remedies;
        return saved_state::run_mark(file_.job, parts);
    }

    int end_without_steps(const JobResult& result) {
        terminal_.err << "The run ended before anything was bent (" << reason_text(result.reason)
                      << "); there is nothing to keep.\n";
        return finish(exit_code_for(result.reason));
    }

    int fail(const OutsideProblem& problem) {
        const std::string line = line_for(problem);
        terminal_.err << line << "\n";
        log_.note(line);
        [[maybe_unused]] const auto logged = log_.finish(); // the trouble was told already
        return outside_trouble;
    }

    int finish(int exit_code) {
        const Result<std::filesystem::path> logged = log_.finish();
        if (!logged) {
            terminal_.err << line_for(logged.error()) << "\n";
            return outside_trouble;
        }
        return exit_code;
    }

    const RunArguments& arguments_;
    Terminal& terminal_;
    const case_file::CaseFile& file_;
    std::filesystem::path folder_;
    RunLog log_;
    std::string step_;
    std::string case_text_;
    std::string mark_;
    std::optional<process::RunState> state_; // to go on from
};

} // namespace

int run_case(const RunArguments& arguments, Terminal& terminal, const Workshop& workshop) {
    const case_file::CaseFileResult file = case_file::read_case_file(arguments.case_file);
    if (!file) {
        terminal.err << lines_for(file.error());
        return bad_input;
    }
    const std::filesystem::path wanted =
        arguments.out.value_or(default_output_folder(arguments.case_file));
    const Result<std::filesystem::path> folder = prepare_output_folder(wanted);
    if (!folder) {
        terminal.err << line_for(folder.error()) << "\n";
        return outside_trouble;
    }
    run_folder::drop_trial_files(*folder);
    return Run(arguments, terminal, *file, *folder).go(workshop);
}

} // namespace flangewright::command_line
