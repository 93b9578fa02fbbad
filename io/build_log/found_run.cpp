#include "io/build_log/found_run.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/text_file.hpp"
#include "io/saved_state/case_text.hpp"
#include "io/saved_state/state_file.hpp"
#include "io/tables/edge_words.hpp"

#include <algorithm>

namespace flangewright::build_log {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;

InputProblem run_problem(const fs::path& folder, std::string found) {
    return {
        folder.string(),
        0,
        0,
        "results",
        std::move(found),
        "the results of a finished run of this very case",
        "run it: flangewright run CASE, or name their folder with --out FOLDER"};
}

std::optional<InputProblem>
state_problem(const fs::path& folder, const job::Job& job, const std::string& version) {
    const auto state = saved_state::read_state(folder, saved_state::case_text(job, version));
    if (!state) {
        return run_problem(folder, state.error().found);
    }
    if (!*state) {
        return run_problem(folder, "no " + std::string(saved_state::file_name) + " in it");
    }
    if (!(*state)->changed.empty()) {
        return run_problem(folder, "a case changed since: " + (*state)->changed);
    }
    return std::nullopt;
}

/// What a saved state does not know of.
std::optional<InputProblem>
wording_problem(const fs::path& folder, const job::Job& job, const Prediction& then) {
    if (!then.is_finished) {
        return run_problem(folder, "a run that did not reach its end");
    }
    if (then.title != job.title) {
        return run_problem(
            folder, "a case changed since: its title was " + key_file::quoted_excerpt(then.title)
        );
    }
    const auto word = [](const std::optional<material::EdgeFinish>& finish) {
        return tables::word_for(finish);
    };
    const bool is_trimmed = !then.trimmed_finish.empty();
    if (then.edge_finish != word(job.blank.edge_finish)
        || (is_trimmed && then.trimmed_finish != word(job.trimmed_edge_finish))) {
        return run_problem(
            folder, "a case changed since: its edge was finished as " + then.edge_finish
        );
    }
    return std::nullopt;
}

Result<std::string, InputProblem> text_in(const fs::path& folder, const char* name) {
    constexpr std::size_t largest = 100'000'000; // bytes
    auto text = key_file::read_text_file(folder / name, {"result", largest});
    return text
        ? text
        : Result<std::string, InputProblem>(
            tl::unexpected(run_problem(folder, std::string(name) + ": " + text.error().found))
        );
}

} // namespace

Result<FoundRun, InputProblem>
find_run(const fs::path& folder, const job::Job& job, const std::string& program_version) {
    std::error_code ignored;
    if (!fs::exists(folder / "summary.json", ignored)) {
        return tl::unexpected(run_problem(
            folder, fs::exists(folder, ignored) ? "no summary.json in it" : "no such folder"
        ));
    }
    if (const auto problem = state_problem(folder, job, program_version)) {
        return tl::unexpected(*problem);
    }
    std::string texts[3];
    for (std::size_t i = 0; const char* name : {"summary.json", "stations.csv", "sheet.html"}) {
        auto text = text_in(folder, name);
        if (!text) {
            return tl::unexpected(text.error());
        }
        texts[i++] = std::move(*text);
    }
    auto prediction = prediction_from(texts[0], texts[1], folder.string());
    if (!prediction) {
        return tl::unexpected(prediction.error());
    }
    if (const auto problem = wording_problem(folder, job, *prediction)) {
        return tl::unexpected(*problem);
    }
    return FoundRun{std::move(*prediction), std::move(texts[2])};
}

} // namespace flangewright::build_log
