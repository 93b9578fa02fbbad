#include "io/run_folder/run_folder.hpp"

#include "io/display/child.hpp"
#include "io/part_view/part_view.hpp"
#include "io/record_pdf/record_pdf.hpp"
#include "io/run_folder/pictures.hpp"
#include "io/run_folder/shown_result.hpp"
#include "io/sheet_page/sheet_page.hpp"
#include "io/tables/run_facts.hpp"
#include "io/tables/station_table.hpp"
#include "io/tables/summary.hpp"
#include "io/tables/verdict_words.hpp"
#include "io/vtk/field_file.hpp"
#include "io/vtk/history_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <optional>
#include <utility>

namespace flangewright::run_folder {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

/// Writes into one folder and keeps the first refusal; after that it writes nothing more.
class FolderWriter {
public:
    explicit FolderWriter(fs::path directory) : directory_(std::move(directory)) {}

    void make(const std::string& folder) {
        if (!problem_) {
            keep(prepare_directory(directory_ / folder));
        }
    }

    void write(const fs::path& name, std::string_view bytes) {
        if (problem_) {
            return;
        }
        const Result<fs::path> written = write_whole(directory_ / name, bytes);
        keep(written);
        if (written) {
            files_.push_back(*written);
        }
    }

    /// Drops what an earlier run left in a folder of ours and this one did not write again. A file
    /// is ours by its name; the user's own files stay.
    void drop_leftovers(const std::string& folder, bool (*is_ours)(const std::string& name)) {
        std::error_code ignored;
        std::vector<fs::path> leftovers;
        for (const fs::directory_entry& entry :
             fs::directory_iterator(directory_ / folder, ignored)) {
            if (is_ours(entry.path().filename().string())
                && std::ranges::find(files_, entry.path()) == files_.end()) {
                leftovers.push_back(entry.path());
            }
        }
        for (const fs::path& leftover : leftovers) {
            drop(leftover);
        }
    }

    void drop(const fs::path& file) {
        std::error_code ignored;
        if (!problem_) {
            fs::remove(file, ignored);
        }
    }

    [[nodiscard]] const std::optional<OutsideProblem>& problem() const { return problem_; }
    [[nodiscard]] const std::vector<fs::path>& files() const { return files_; }

private:
    void keep(const Result<fs::path>& outcome) {
        if (!outcome) {
            problem_ = outcome.error();
        }
    }

    fs::path directory_;
    std::vector<fs::path> files_;
    std::optional<OutsideProblem> problem_;
};

bool is_field_name(const std::string& name) {
    return name.ends_with(".vtu") && name.front() >= '0' && name.front() <= '9';
}

/// Fields count what was no number; the user hears of it once.
void write_field(
    FolderWriter& folder, const std::string& name, const vtk::FieldFile& file, int& n_odd
) {
    folder.write(name, file.bytes);
    n_odd += file.n_not_finite;
}

void write_steps(
    FolderWriter& folder, const job::Job& job, const process::JobResult& result, int& n_odd
) {
    folder.make("steps");
    for (std::size_t i = 0; i < result.steps.size(); ++i) {
        const std::string stem =
            fmt::format("steps/{}-{}", i + 1, process::name_of(result.steps[i].kind));
        write_field(folder, stem + ".vtu", vtk::step_file(job, result, i), n_odd);
        write_field(folder, stem + "-edge.vtu", vtk::edge_file(result, i), n_odd);
    }
    folder.drop_leftovers("steps", is_field_name);
}

void write_history(
    FolderWriter& folder, const job::Job& job, const process::JobResult& result, int& n_odd
) {
    folder.make("history");
    std::vector<vtk::HistoryEntry> entries;
    for (const std::size_t i : vtk::played_frames(result.history)) {
        const std::string name = fmt::format("history/{:04}.vtu", entries.size() + 1);
        write_field(folder, name, vtk::frame_file(job, result, i), n_odd);
        entries.push_back({name, vtk::time_of(result.history[i])});
    }
    folder.drop_leftovers("history", is_field_name);
    folder.write("history.pvd", vtk::history_text(entries));
}

/// Pictures as drawn by the child; what is missing is said in `warnings`.
std::vector<display::NamedBytes> draw(
    const OutputRequest& request,
    const std::vector<PlannedPicture>& plan,
    std::vector<std::string>& warnings
) {
    const Result<display::Screen> screen = display::Screen::find(request.screen);
    if (!screen) {
        warnings.push_back(fmt::format(
            "Pictures are left out: no display. To get them, {}.", screen.error().remedy
        ));
        return {};
    }
    display::ChildWork work = display::work_in_child(
        {.display = screen->name()},
        [&plan](const display::HandOver& hand_over) {
            for (const PlannedPicture& picture : plan) {
                hand_over({picture.file, picture.draw()});
            }
        }
    );
    std::erase_if(work.made, [](const display::NamedBytes& made) { return made.second.empty(); });
    if (work.made.size() < plan.size()) {
        warnings.push_back(fmt::format(
            "{} of {} pictures could not be drawn{}; all other results are complete.",
            plan.size() - work.made.size(),
            plan.size(),
            work.in_time ? "" : " in time"
        ));
    }
    return std::move(work.made);
}

/// Pictures into their folder, and with their captions for the page.
std::vector<sheet_page::PagePicture> write_pictures(
    FolderWriter& folder,
    const OutputRequest& request,
    const process::JobResult& result,
    tables::RunFacts& facts
) {
    std::vector<sheet_page::PagePicture> shown;
    if (request.with_pictures) {
        const std::vector<PlannedPicture> plan = plan_pictures(facts, request.job, result);
        folder.make("pictures");
        for (display::NamedBytes& made : draw(request, plan, facts.output_warnings)) {
            const auto planned = std::ranges::find(plan, made.first, &PlannedPicture::file);
            folder.write("pictures/" + made.first, made.second);
            shown.push_back({planned->caption, std::move(made.second)});
        }
    } else {
        facts.output_warnings.emplace_back("Pictures are left out, as asked.");
    }
    folder.drop_leftovers("pictures", is_picture_name);
    return shown;
}

void warn_of_odd_values(int n_odd, std::vector<std::string>& warnings) {
    if (n_odd > 0) {
        warnings.push_back(fmt::format(
            "{} values in the field files were not numbers and stand as 0: please report this run.",
            n_odd
        ));
    }
}

std::string page(
    const tables::RunFacts& facts,
    const job::Job& job,
    const process::JobResult& shown,
    const std::vector<sheet_page::PagePicture>& pictures
) {
    const std::string view = part_view::part_view(job, shown, facts.unit);
    return sheet_page::sheet_page(facts, job, shown, pictures, view);
}

/// The same in short.
record_pdf::Record record(
    const tables::RunFacts& facts,
    const job::Job& job,
    const process::JobResult& shown,
    const std::vector<sheet_page::PagePicture>& pictures
) {
    return {
        job.title,
        fmt::format(
            "flangewright {}, {}, from {}", facts.program_version, facts.date, facts.case_file
        ),
        tables::verdict_words(findings::word_for(shown.verdict.word), shown.verdict.share_used),
        shown.verdict.because,
        facts.log,
        sheet_page::rows_to_fill(facts, shown),
        facts.own_experience,
        pictures};
}

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

} // namespace

Result<WrittenOutputs>
write_outputs(const OutputRequest& request, const process::JobResult& result) {
    const Clock::time_point start = Clock::now();
    const process::JobResult shown = shown_result(request.job, result);
    tables::RunFacts facts{
        .program_version = request.program_version,
        .case_file = request.case_file,
        .run_mark = request.run_mark,
        .date = request.date.empty() ? today() : request.date,
        .unit = request.unit,
        .rounded_kinks = request.rounded_kinks,
        .seconds_output = 0,
        .output_warnings = {},
        .log = request.log,
        .own_experience = request.own_experience};
    FolderWriter folder(request.directory);
    folder.make("");
    // From here until the end the folder is not complete.
    folder.drop(request.directory / "summary.json");
    int n_odd = 0;
    write_steps(folder, request.job, shown, n_odd);
    write_history(folder, request.job, shown, n_odd);
    warn_of_odd_values(n_odd, facts.output_warnings);
    folder.write("stations.csv", tables::stations_csv(request.job, shown));
    folder.write("edge.csv", tables::edge_csv(shown));
    const std::vector<sheet_page::PagePicture> pictures = folder.problem()
        ? std::vector<sheet_page::PagePicture>()
        : write_pictures(folder, request, shown, facts);
    folder.write("sheet.html", page(facts, request.job, shown, pictures));
    const std::string pdf = record_pdf::pdf_of(record(facts, request.job, shown, pictures));
    if (pdf.empty()) {
        facts.output_warnings.emplace_back("sheet.pdf could not be made; sheet.html is complete.");
    } else {
        folder.write("sheet.pdf", pdf);
    }
    facts.seconds_output = seconds_since(start);
    // Last, so that a summary means the folder is complete.
    folder.write("summary.json", tables::summary_json(facts, request.job, shown));
    if (folder.problem()) {
        return tl::make_unexpected(*folder.problem());
    }
    return WrittenOutputs{folder.files(), facts.output_warnings, seconds_since(start)};
}

} // namespace flangewright::run_folder
