#include "io/case_file/sections.hpp"
#include "io/key_file/nearest_word.hpp"

#include <algorithm>
#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Need;
using key_file::TableReader;

const std::array<std::string, 3> accuracy_words{"quick", "normal", "fine"};
constexpr std::array accuracies{job::Accuracy::quick, job::Accuracy::normal, job::Accuracy::fine};

constexpr const char* step_orders = "[\"bend-down\"] or [\"bend-down\", \"release\"]";

std::optional<std::vector<job::StepKind>> read_steps(TableReader& table) {
    const std::optional<std::vector<std::string>> words = table.texts("steps", Need::optional);
    if (!words) {
        return std::nullopt;
    }
    std::vector<job::StepKind> steps;
    for (const std::string& word : *words) {
        if (word == "bend-down") {
            steps.push_back(job::StepKind::bend_down);
        } else if (word == "release") {
            steps.push_back(job::StepKind::release);
        } else {
            table.object_found(
                "steps", "\"" + word + "\"", step_orders, "write bend-down or release for each step"
            );
            return std::nullopt;
        }
    }
    using Order = std::vector<job::StepKind>;
    const Order whole{job::StepKind::bend_down, job::StepKind::release};
    if (steps == whole || steps == Order{job::StepKind::bend_down}) {
        return steps;
    }
    const bool releases_first = !steps.empty() && steps.front() == job::StepKind::release;
    table.object_found(
        "steps",
        steps.empty()        ? "no step"
            : releases_first ? "a release with nothing bent before it"
                             : "a step twice",
        step_orders,
        "put bend-down first, then release, each once"
    );
    return std::nullopt;
}

} // namespace

RunSection read_run(TableReader& table) {
    RunSection run;
    run.steps = read_steps(table).value_or(run.steps);
    if (const auto word = table.word("accuracy", accuracy_words, Need::optional)) {
        const auto found = std::find(accuracy_words.begin(), accuracy_words.end(), *word);
        run.accuracy = accuracies.at(static_cast<std::size_t>(found - accuracy_words.begin()));
    }
    run.close_share = table
                          .value(
                              {.key = "close_from",
                               .lowest = 0.2,
                               .highest = 0.99,
                               .reason = "share of the allowed strain from which the verdict is "
                                         "close; from 1 on it splits",
                               .remedy = "write a share such as 0.8",
                               .need = Need::optional}
                          )
                          .value_or(run.close_share);
    table.finish();
    return run;
}

} // namespace flangewright::case_file
