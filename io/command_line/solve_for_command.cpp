#include "io/command_line/solve_for_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/output_place.hpp"
#include "io/command_line/progress_line.hpp"
#include "io/command_line/run_log.hpp"
#include "io/command_line/solve_for_json.hpp"
#include "io/command_line/solve_for_text.hpp"
#include "io/command_line/stop_signal.hpp"
#include "io/command_line/words.hpp"
#include "io/units/angle.hpp"
#include "mesh/base/parallel.hpp"
#include "solver/process/slice_share.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using process::AlongEnd;
using process::SearchEnd;

int exit_code_for(SearchEnd end) {
    switch (end) {
    case SearchEnd::found:
    case SearchEnd::at_bound:
        return done;
    case SearchEnd::none_in_bounds:
    case SearchEnd::not_near:
        return no_answer;
    case SearchEnd::not_known:
        return bad_input;
    case SearchEnd::no_balance:
        return no_equilibrium;
    case SearchEnd::stopped:
        return interrupted;
    }
    return internal_error;
}

int exit_code_for(AlongEnd end) {
    switch (end) {
    case AlongEnd::found:
        return done;
    case AlongEnd::not_near:
        return no_answer;
    case AlongEnd::no_balance:
        return no_equilibrium;
    case AlongEnd::stopped:
        return interrupted;
    }
    return internal_error;
}

/// Stations for a table of walls: those of the wanted table and, between and beside them, about a
/// flange width apart.
std::vector<double> stations_for(const Question& question) {
    const job::Blank& blank = question.as_is.job.blank;
    const double length = blank.line.length();
    constexpr double n_most = 10;
    const double wanted = std::max({blank.flange_width, length / n_most, 8.0});
    std::vector<double> fixed{0, length};
    for (const outline::ProfilePoint& point : question.wanted_along.points()) {
        fixed.push_back(point.station);
    }
    std::ranges::sort(fixed);
    std::vector<double> stations{0};
    for (const double next : fixed) {
        const double from = stations.back();
        const int n = std::max(1, static_cast<int>(std::round((next - from) / wanted)));
        if (next - from < 0.25 * wanted) {
            continue; // a table needs no two stations so near to each other
        }
        for (int i = 1; i <= n; ++i) {
            stations.push_back(from + i * (next - from) / n);
        }
    }
    return stations;
}

// One search: everything that its parts share.
class Command {
public:
    Command(
        const SolveForArguments& arguments,
        Terminal& terminal,
        const Question& question,
        const SolveForWorkshop& workshop
    )
        : arguments_(arguments), terminal_(terminal), question_(question), workshop_(workshop),
          n_threads_(arguments.n_threads > 0 ? arguments.n_threads : default_thread_count()),
          line_(terminal) {}

    int go() {
        if (arguments_.out) {
            const Result<fs::path> folder = prepare_output_folder(*arguments_.out);
            if (!folder) {
                return fail(folder.error());
            }
            log_.emplace(*folder);
            drop_earlier(*folder);
        }
        say(question_text(question_));
        const StopSignal signal; // lives on while results are written, so that they come whole
        monitor_.stop = signal.token();
        const int exit_code = search();
        line_.clear();
        say(answer_text(question_, answer_));
        const int written = log_ ? write() : static_cast<int>(done);
        terminal_.out << caution();
        return written != done ? written : exit_code;
    }

private:
    // What an earlier search left, so that no old answer stands beside a new search.
    static void drop_earlier(const fs::path& folder) {
        for (const char* name : {"case.toml", "solve_for.json"}) {
            std::error_code ignored;
            fs::remove(folder / name, ignored);
        }
    }

    int search() {
        monitor_.on_progress = [this](const Progress& progress) { line_.show(progress); };
        if (!question_.wanted_along.is_empty()) {
            return search_along(nullptr, question_.search.as_case);
        }
        answer_.one = process::find_value(search_of(), works(), monitor_);
        const process::ValueFound& one = *answer_.one;
        if (one.end == SearchEnd::found && differs_along(*one.check)) {
            return search_along(one.check, one.value);
        }
        return exit_code_for(one.end);
    }

    [[nodiscard]] process::ValueSearch search_of() const {
        process::ValueSearch search = question_.search;
        search.n_threads = n_threads_;
        return search;
    }

    [[nodiscard]] process::SearchWorks works() {
        process::SearchWorks works;
        works.quick = {
            [this](double value) { return question_.job_at(value); }, workshop_.quick, n_threads_};
        works.run_job = workshop_.whole.run_job;
        works.rounded = [this](double value) { return question_.rounded(value); };
        works.on_trial = [this](const process::ValueTrial& trial) {
            line_.clear();
            say(trial_line(question_, trial));
        };
        return works;
    }

    // Where one wall all along leaves some station too far off, and a table of walls may be cut.
    [[nodiscard]] bool differs_along(const process::JobResult& run) {
        const job::Job& job = question_.as_is.job;
        if (!question_.is_angle() || job.blank.line.curve() == outline::Curve::straight) {
            return false;
        }
        const std::vector<double> angles = process::angles_at(run, stations_for(question_));
        const auto is_off = [this](double angle) {
            return std::abs(angle - question_.search.wanted) > question_.search.figure_tolerance;
        };
        if (std::ranges::none_of(angles, is_off)) {
            return false;
        }
        const bool is_even = job.drive.order == job::DriveOrder::evenly && !job.return_bend;
        if (arguments_.one_value || !is_even) {
            const auto [least, most] = std::ranges::minmax(angles);
            answer_.no_along = fmt::format(
                "Along the line the angle goes from {:.2f} to {:.2f} deg with one wall angle.{}",
                units::degrees(least),
                units::degrees(most),
                is_even ? "" : " A wall that varies needs a leaf driven evenly, and no lip."
            );
            return false;
        }
        return true;
    }

    int search_along(const std::shared_ptr<const process::JobResult>& first, double wall) {
        process::AlongSearch search;
        search.stations = stations_for(question_);
        const bool has_table = !question_.wanted_along.is_empty();
        search.wanted =
            has_table ? question_.wanted_along : outline::Profile({{0, question_.search.wanted}});
        for (const double station : search.stations) {
            search.walls.push_back(question_.rounded(has_table ? search.wanted.at(station) : wall));
        }
        search.tolerance = question_.search.figure_tolerance;
        search.least_wall = question_.search.from;
        search.most_wall = question_.search.to;
        search.n_threads = n_threads_;
        process::AlongWorks works;
        works.job_at = [&](const std::vector<double>& stations, const std::vector<double>& walls) {
            return question_.job_at(stations, walls);
        };
        works.run_job = workshop_.whole.run_job;
        works.rounded = [this](double value) { return question_.rounded(value); };
        works.on_run = [this](const process::AlongRun& run) {
            line_.clear();
            say(along_line(run));
        };
        works.first = first;
        answer_.along = process::find_walls(search, works, monitor_);
        answer_.wanted = search.wanted;
        return exit_code_for(answer_.along->end);
    }

    // The case found, its run, and how it was found.
    int write() {
        const fs::path& folder = *arguments_.out;
        if (const process::JobResult* run = answer_.check()) {
            if (const int code = answer_.is_found() ? write_case(folder) : 0; code != done) {
                return code; // what is no answer is not put into a case
            }
            if (const int code = write_run(folder / "check-run", *run); code != done) {
                return code;
            }
        }
        const auto json = run_folder::write_whole(
            folder / "solve_for.json", answer_json(question_, answer_, program_version())
        );
        if (!json) {
            return fail(json.error());
        }
        tell_written(*json);
        const Result<fs::path> logged = log_->finish();
        return logged ? static_cast<int>(done) : fail(logged.error());
    }

    int write_case(const fs::path& folder) {
        Result<std::string, key_file::InputProblem> text = text_found();
        if (text) {
            text = question_.with_whole_path(*text);
        }
        if (!text) {
            terminal_.err << key_file::line_for(text.error()) << "\n";
            return bad_input;
        }
        const auto written = run_folder::write_whole(folder / "case.toml", *text);
        if (!written) {
            return fail(written.error());
        }
        tell_written(*written);
        return done;
    }

    [[nodiscard]] Result<std::string, key_file::InputProblem> text_found() const {
        return answer_.is_along()
            ? question_.text_with(answer_.along->nearest->stations, answer_.along->nearest->walls)
            : question_.text_with(answer_.one->value);
    }

    int write_run(const fs::path& folder, const process::JobResult& run) {
        const std::optional<job::Job> job = answer_.is_along()
            ? question_.job_at(answer_.along->nearest->stations, answer_.along->nearest->walls)
            : question_.job_at(answer_.one->value);
        run_folder::OutputRequest request;
        request.directory = folder;
        request.job = job.value_or(question_.as_is.job);
        request.job.scatter.reset(); // as it was run
        request.unit = question_.own.unit;
        request.with_pictures = arguments_.with_pictures;
        request.program_version = program_version();
        request.case_file =
            answer_.is_found() ? (*arguments_.out / "case.toml").string() : question_.own.file;
        const auto written = workshop_.whole.write_outputs(request, run);
        if (!written) {
            return fail(written.error());
        }
        for (const std::string& warning : written->warnings) {
            say(warning + "\n");
        }
        tell_written(folder);
        return done;
    }

    void tell_written(const fs::path& path) { say("Written: " + path.string() + "\n"); }

    void say(const std::string& text) {
        terminal_.out << text << std::flush;
        if (!log_) {
            return;
        }
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find('\n', at), text.size());
            if (end > at) {
                log_->note(text.substr(at, end - at));
            }
            at = end + 1;
        }
    }

    int fail(const OutsideProblem& problem) {
        terminal_.err << line_for(problem) << "\n";
        return outside_trouble;
    }

    const SolveForArguments& arguments_;
    Terminal& terminal_;
    const Question& question_;
    const SolveForWorkshop& workshop_;
    int n_threads_;
    ProgressLine line_;
    Monitor monitor_;
    Answer answer_;
    std::optional<RunLog> log_;
};

} // namespace

int solve_for(
    const SolveForArguments& arguments, Terminal& terminal, const SolveForWorkshop& workshop
) {
    const Result<Question, std::vector<key_file::InputProblem>> question = question_of(arguments);
    if (!question) {
        terminal.err << lines_for(question.error());
        return bad_input;
    }
    return Command(arguments, terminal, *question, workshop).go();
}

} // namespace flangewright::command_line
