#include "io/command_line/compare_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/compare_results.hpp"
#include "io/command_line/output_place.hpp"
#include "io/command_line/stop_signal.hpp"
#include "io/command_line/words.hpp"
#include "io/compare/job_line.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/saved_state/case_text.hpp"
#include "io/saved_state/state_file.hpp"
#include "mesh/base/child_processes.hpp"
#include "mesh/base/parallel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <ostream>
#include <sstream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using compare::RunEnd;
using compare::RunRecord;
using compare::Variant;

constexpr const char* marker = "study.txt"; // tells a study's folder from any other

compare::StudyRequest request_for(const CompareArguments& arguments, const fs::path& folder) {
    compare::StudyRequest request;
    request.cases = arguments.cases;
    request.variations = arguments.variations;
    request.folder = folder;
    request.options.program_version = program_version();
    request.options.with_pictures = arguments.with_pictures;
    request.options.with_even_drive = arguments.with_even_drive;
    request.options.with_remedies = arguments.with_remedies;
    return request;
}

Result<fs::path> prepare_study_folder(const fs::path& folder) {
    std::error_code ignored;
    const bool is_taken = fs::is_directory(folder, ignored) && !fs::is_empty(folder, ignored)
        && !fs::exists(folder / marker, ignored);
    if (is_taken) {
        return tl::unexpected(OutsideProblem{
            "preparing the folder for the study",
            folder.string(),
            "it holds files that are no study of this program and will not be overwritten; choose "
            "an empty or new folder with --out FOLDER"});
    }
    return run_folder::prepare_directory(folder);
}

/// A file that is already so is left alone: its time tells when the variant was made.
std::optional<OutsideProblem> write_if_new(const fs::path& path, const std::string& text) {
    std::ifstream stream(path, std::ios::binary);
    if (stream && std::string(std::istreambuf_iterator<char>(stream), {}) == text) {
        return std::nullopt;
    }
    const Result<fs::path> written = run_folder::write_whole(path, text);
    return written ? std::nullopt : std::optional(written.error());
}

std::optional<OutsideProblem> write_copy(const compare::Copy& copy) {
    std::ifstream stream(copy.from, std::ios::binary);
    const std::string bytes(std::istreambuf_iterator<char>(stream), {});
    if (!stream) {
        return OutsideProblem{
            "reading a drawing", copy.from.string(), "check that it is still there"};
    }
    return write_if_new(copy.to, bytes);
}

/// Marker and case files; nothing when all is written.
std::optional<OutsideProblem>
write_cases(const fs::path& folder, const std::vector<Variant>& variants) {
    std::string list = "Variants of a study by flangewright compare: cases/NAME.toml, runs/NAME\n";
    for (std::size_t i = 0; i < variants.size(); ++i) {
        list += fmt::format("{} {}: {}\n", i + 1, variants[i].name, variants[i].label);
    }
    if (auto problem = write_if_new(folder / marker, list)) {
        return problem;
    }
    for (const char* below : {"cases", "runs"}) {
        if (const auto made = run_folder::prepare_directory(folder / below); !made) {
            return made.error();
        }
    }
    for (const Variant& variant : variants) {
        if (auto problem = write_if_new(variant.case_path, variant.case_text)) {
            return problem;
        }
        for (const compare::Copy& copy : variant.copies) {
            if (auto problem = write_copy(copy)) {
                return problem;
            }
        }
    }
    return std::nullopt;
}

/// Is there nothing in the folder that a run of this variant could not go on from?
bool can_resume(const Variant& variant) {
    return saved_state::read_state(
               variant.run_folder, saved_state::case_text(variant.file.job, program_version())
    )
        .has_value();
}

/// Those that have no finished run of the same job.
std::vector<std::size_t> still_to_run(const std::vector<Variant>& variants) {
    std::vector<std::size_t> missing;
    for (std::size_t i = 0; i < variants.size(); ++i) {
        if (compare::read_run(variants[i].run_folder, variants[i].run_mark).end != RunEnd::done) {
            missing.push_back(i);
        }
    }
    return missing;
}

/// What an other run left there must not be taken for this one's.
void drop_old_summary(const Variant& variant) {
    std::error_code ignored;
    fs::remove(variant.run_folder / "summary.json", ignored);
}

int fail(const OutsideProblem& problem, Terminal& terminal) {
    terminal.err << line_for(problem) << "\n";
    return outside_trouble;
}

/// One study under way.
class Study {
public:
    Study(
        const CompareArguments& arguments,
        Terminal& terminal,
        const fs::path& folder,
        const std::vector<Variant>& variants
    )
        : arguments_(arguments), terminal_(terminal), folder_(folder), variants_(variants),
          missing_(still_to_run(variants)) {}

    /// Lines on standard output, alone, so that they can be piped.
    int list_jobs() {
        std::string lines;
        for (const std::size_t i : missing_) {
            drop_old_summary(variants_[i]);
            lines += job_line(
                         variants_[i],
                         request_for(arguments_, folder_).options,
                         {.program = own_path(),
                          .sheets = arguments_.sheets ? arguments_.sheets->string() : "",
                          .resumes = can_resume(variants_[i])}
                     )
                + "\n";
        }
        const auto written = run_folder::write_whole(folder_ / "jobs.txt", lines);
        if (!written) {
            return fail(written.error(), terminal_);
        }
        terminal_.out << lines;
        terminal_.err << fmt::format(
            "{} of {} variants to run, one a line, also in {}; then join them: the same command "
            "with --collect in place of --list-jobs\n",
            missing_.size(),
            variants_.size(),
            written->string()
        );
        return done;
    }

    /// Runs what is missing. True when it was stopped.
    bool run(const Workshop& workshop) {
        const auto n_kept = variants_.size() - missing_.size();
        const int n_at_once = std::min(
            static_cast<int>(missing_.size()),
            arguments_.n_at_once > 0 ? arguments_.n_at_once : default_thread_count()
        );
        terminal_.out << fmt::format("{} variants", variants_.size())
                      << (n_kept > 0 ? fmt::format(", {} kept from an earlier run", n_kept) : "")
                      << (missing_.empty() ? "" : fmt::format(", {} at a time", n_at_once))
                      << std::endl;
        const StopSignal signal;
        const auto work = [&](int i) -> Numbers {
            const std::size_t number = missing_[static_cast<std::size_t>(i)];
            return std::vector<double>{static_cast<double>(run_one(variants_[number], workshop))};
        };
        const auto on_done = [&](int n_done) {
            terminal_.out << fmt::format("{} of {} run", n_done, missing_.size()) << std::endl;
        };
        const std::vector<Numbers> codes = in_child_processes(
            static_cast<int>(missing_.size()), n_at_once, work, on_done, signal.token()
        );
        was_stopped_ = signal.token().stop_requested();
        for (std::size_t i = 0; i < codes.size(); ++i) {
            is_crashed_.push_back(!codes[i] && !was_stopped_);
        }
        return was_stopped_;
    }

    /// Joins what there is and writes it.
    int finish() {
        std::vector<compare::ComparedRun> runs;
        for (const Variant& variant : variants_) {
            runs.push_back({variant.label, compare::read_run(variant.run_folder, variant.run_mark)}
            );
            compare::tell_depth_left(variant.file.job, runs.back().record);
        }
        for (std::size_t i = 0; i < is_crashed_.size(); ++i) {
            RunRecord& record = runs[missing_[i]].record;
            if (is_crashed_[i] && record.end == RunEnd::missing) {
                record.end = RunEnd::failed;
                record.reason = "the run ended by itself; its run.log.part says how far it came";
            }
        }
        const auto written = write_results({arguments_, folder_, variants_}, runs);
        if (!written) {
            return fail(written.error(), terminal_);
        }
        terminal_.out << "\n"
                      << results_text(runs) << "\nSheet: " << written->string() << "\n\n"
                      << caution();
        if (was_stopped_) {
            terminal_.out << "Stopped. To go on from here: the same command again.\n";
            return interrupted;
        }
        return exit_code_for(runs);
    }

private:
    /// In a process of its own. What went wrong goes to the screen under the variant's name.
    int run_one(const Variant& variant, const Workshop& workshop) {
        drop_old_summary(variant);
        RunArguments run;
        run.case_file = variant.case_path;
        run.out = variant.run_folder;
        run.n_threads = 1;
        run.with_pictures = arguments_.with_pictures;
        run.with_even_drive = arguments_.with_even_drive;
        run.with_remedies = arguments_.with_remedies;
        run.resumes = can_resume(variant);
        std::ostringstream said;
        std::ostringstream wrong;
        Terminal quiet{said, wrong};
        const int code = run_case(run, quiet, workshop);
        if (code != done && code != interrupted && !wrong.str().empty()) {
            terminal_.err << variant.name + ": " + wrong.str() << std::flush;
        }
        return code;
    }

    static std::string own_path() {
        std::error_code error;
        const fs::path path = fs::read_symlink("/proc/self/exe", error);
        return error ? "flangewright" : path.string();
    }

    static int exit_code_for(const std::vector<compare::ComparedRun>& runs) {
        const auto has = [&runs](RunEnd end) {
            return std::ranges::any_of(runs, [end](const compare::ComparedRun& run) {
                return run.record.end == end;
            });
        };
        if (has(RunEnd::failed) || has(RunEnd::missing)) {
            return outside_trouble;
        }
        return has(RunEnd::no_equilibrium) ? no_equilibrium : done;
    }

    const CompareArguments& arguments_;
    Terminal& terminal_;
    fs::path folder_;
    const std::vector<Variant>& variants_;
    std::vector<std::size_t> missing_;
    std::vector<bool> is_crashed_; // of those that were missing
    bool was_stopped_ = false;
};

} // namespace

fs::path default_study_folder(const fs::path& case_file) {
    std::string folder = default_output_folder(case_file).string();
    constexpr std::string_view ending = "-result";
    folder.resize(folder.size() - ending.size());
    return folder + "-compare";
}

int compare_variants(
    const CompareArguments& arguments, Terminal& terminal, const Workshop& workshop
) {
    const fs::path folder = arguments.out.value_or(default_study_folder(arguments.cases.front()));
    const auto variants = plan_study(request_for(arguments, folder));
    if (!variants) {
        terminal.err << lines_for(variants.error());
        return bad_input;
    }
    if (const auto prepared = prepare_study_folder(folder); !prepared) {
        return fail(prepared.error(), terminal);
    }
    if (const auto problem = write_cases(folder, *variants)) {
        return fail(*problem, terminal);
    }
    Study study(arguments, terminal, folder, *variants);
    if (arguments.lists_jobs) {
        return study.list_jobs();
    }
    if (!arguments.collects) {
        study.run(workshop);
    }
    return study.finish();
}

} // namespace flangewright::command_line
