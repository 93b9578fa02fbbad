#include "io/case_file/sections.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Need;
using key_file::TableReader;

const std::array<std::string, 3> accuracy_words{"quick", "normal", "fine"};
constexpr std::array accuracies{job::Accuracy::quick, job::Accuracy::normal, job::Accuracy::fine};

struct StepWord {
    const char* word;
    job::StepKind kind;
};
constexpr std::array step_words{
    StepWord{"bend-down", job::StepKind::bend_down},
    StepWord{"release", job::StepKind::release},
    StepWord{"trim", job::StepKind::trim},
    StepWord{"anneal", job::StepKind::anneal},
    StepWord{"heat-treat", job::StepKind::heat_treat},
    StepWord{"set-on-block", job::StepKind::set_on_block},
    StepWord{"return-bend", job::StepKind::return_bend}};

constexpr const char* step_orders =
    "[\"bend-down\"], then \"release\", then \"trim\" and \"return-bend\" once each, \"anneal\", "
    "\"heat-treat\" and \"set-on-block\" in any order, with a \"release\" after each set-on-block "
    "and return-bend";

/// What is wrong with the order, in plain words; empty when nothing is.
std::string fault_of(const std::vector<job::StepKind>& steps) {
    using job::StepKind;
    if (steps.empty()) {
        return "no step";
    }
    if (steps.front() != StepKind::bend_down) {
        return "a first step with nothing bent before it";
    }
    for (const StepKind once : {StepKind::bend_down, StepKind::trim, StepKind::return_bend}) {
        if (std::ranges::count(steps, once) > 1) {
            return "a step twice";
        }
    }
    for (std::size_t i = 1; i < steps.size(); ++i) {
        const bool is_on_block = job::ends_on_block(steps[i - 1]);
        if (is_on_block && steps[i] != StepKind::release && steps[i] != StepKind::return_bend) {
            return "a step on a part that is still on the block";
        }
        if (!is_on_block && steps[i] == StepKind::release) {
            return "a release of a part that is not on the block";
        }
    }
    constexpr std::size_t most = 8;
    return steps.size() > most ? "more than eight steps" : "";
}

/// A loose part is set on its block again before its lip is bent, said or not.
std::vector<job::StepKind> with_web_clamped(const std::vector<job::StepKind>& written) {
    std::vector<job::StepKind> steps;
    for (const job::StepKind kind : written) {
        if (kind == job::StepKind::return_bend && !job::ends_on_block(steps.back())) {
            steps.push_back(job::StepKind::set_on_block);
        }
        steps.push_back(kind);
    }
    return steps;
}

std::optional<std::vector<job::StepKind>> read_steps(TableReader& table) {
    const std::optional<std::vector<std::string>> words = table.texts("steps", Need::optional);
    if (!words) {
        return std::nullopt;
    }
    std::vector<job::StepKind> steps;
    for (const std::string& word : *words) {
        const auto known = std::ranges::find_if(step_words, [&](const StepWord& entry) {
            return word == entry.word;
        });
        if (known == step_words.end()) {
            table.object_found(
                "steps",
                fmt::format("\"{}\"", key_file::excerpt(word)),
                step_orders,
                "write bend-down, release, trim, anneal, heat-treat, set-on-block or return-bend "
                "for each step"
            );
            return std::nullopt;
        }
        steps.push_back(known->kind);
    }
    const std::string fault = fault_of(steps);
    if (fault.empty()) {
        return with_web_clamped(steps);
    }
    table.object_found(
        "steps", fault, step_orders, "put bend-down first, then release, then what follows"
    );
    return std::nullopt;
}

} // namespace

RunSection read_run(TableReader& table) {
    RunSection run;
    const std::optional<std::vector<job::StepKind>> steps = read_steps(table);
    run.has_good_steps = steps.has_value() || !table.has("steps");
    run.steps = steps.value_or(run.steps);
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
