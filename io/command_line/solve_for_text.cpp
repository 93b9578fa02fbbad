#include "io/command_line/solve_for_text.hpp"

#include "io/command_line/solve_for_check.hpp"
#include "io/command_line/solve_for_words.hpp"
#include "io/command_line/words.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::command_line {

namespace {

using process::AlongEnd;
using process::SearchEnd;

std::string
row(const std::string& how, const std::string& value, const std::string& figure, double seconds) {
    return fmt::format("  {:<11}{:<24}{:<18}{:>8.1f} s\n", how, value, figure, seconds);
}

std::string at_bound_words(
    const Question& question,
    const char* option,
    double bound,
    const std::optional<process::ValueTrial>& trial
) {
    return fmt::format(
        "  at {} ({}): {}\n",
        question.shown_value(bound),
        option,
        !trial              ? "not looked at"
            : trial->figure ? figure_text(question, *trial->figure)
                + (trial->is_check ? "" : ", as a quick trial expects")
                            : "no balance of forces, or not known"
    );
}

std::string both_bounds(const Question& question, const process::ValueFound& found) {
    return at_bound_words(question, "from", question.search.from, found.at_from)
        + at_bound_words(question, "to", question.search.to, found.at_to);
}

std::string value_line(const Question& question, const process::ValueFound& found) {
    std::string text = question.key_word() + " = " + question.shown_value(found.value);
    if (question.is_angle()) {
        text += fmt::format(" (undercut {:.2f} deg past square)", units::degrees(found.value) - 90);
    }
    if (!question.table.is_empty()) {
        const double added = question.added(found.value);
        text += fmt::format(
            ", all of its table {} by {}",
            added < 0 ? "lowered" : "raised",
            question.shown(std::abs(added))
        );
    }
    return text + "\n";
}

std::string nearest_words(const Question& question, const process::ValueFound& found) {
    return found.check && found.figure ? fmt::format(
               "The nearest run: {} at {}.\n",
               figure_text(question, *found.figure),
               question.shown_value(found.value)
           )
                                       : "";
}

std::string one_text(const Question& question, const process::ValueFound& found) {
    switch (found.end) {
    case SearchEnd::found:
        return "Answer: " + value_line(question, found);
    case SearchEnd::at_bound:
        return "Answer: " + value_line(question, found)
            + as_lines("This is the bound itself, and it still keeps the share: what is looked for "
                       "lies past it.")
            + both_bounds(question, found);
    case SearchEnd::none_in_bounds:
        return fmt::format(
                   "No answer: no value within the bounds gives {}.\n", wanted_words(question)
               )
            + both_bounds(question, found) + "Widen the bounds with --from and --to, or ask for "
            + (question.is_angle() ? "another angle.\n" : "another limit.\n");
    case SearchEnd::not_known:
        return as_lines(
                   "No answer: the share can't be known. "
                   + (found.check ? found.check->verdict.because : std::string())
               )
            + "  Give the sheet the limit that is missing (docs/case-file.md, "
              "docs/materials.md).\n";
    case SearchEnd::no_balance:
        return "No answer: no whole run found its balance of forces that far.\n"
            + both_bounds(question, found) + nearest_words(question, found);
    case SearchEnd::not_near:
        return "Not reached: the figure jumps there, or the whole runs allowed are used up.\n"
            + nearest_words(question, found);
    case SearchEnd::stopped:
        return "Stopped as asked.\n" + nearest_words(question, found);
    }
    return "";
}

std::string along_text(const Question& question, const Answer& answer) {
    const process::AlongFound& found = *answer.along;
    std::string text = found.end == AlongEnd::found ? "Answer: block.wall_angle over the station\n"
        : found.end == AlongEnd::stopped
        ? "Stopped as asked. The nearest run:\n"
        : "Not reached: no further run came nearer at every station. The nearest run:\n";
    if (!found.nearest) {
        return "No answer along the line: no balance of forces.\n";
    }
    std::vector<std::vector<std::string>> rows{{"station", "wall_angle", "flange angle", "wanted"}};
    const process::AlongRun& nearest = *found.nearest;
    double most_off = 0;
    for (std::size_t i = 0; i < nearest.stations.size(); ++i) {
        const double wanted = answer.wanted.at(nearest.stations[i]);
        most_off = std::max(most_off, std::abs(nearest.angles[i] - wanted));
        rows.push_back(
            {tables::brief_length(nearest.stations[i], question.own.unit),
             angle_text(nearest.walls[i]),
             angle_text(nearest.angles[i]),
             angle_text(wanted)}
        );
    }
    text += as_columns(rows)
        + fmt::format(
                "  furthest off: {} at these stations, {} anywhere along the line (station {})\n",
                angle_text(most_off),
                angle_text(nearest.most_off),
                tables::brief_length(nearest.off_station, question.own.unit)
        );
    return text;
}

} // namespace

std::string question_text(const Question& question) {
    std::string text = fmt::format(
        "Looking for: {}, {} from {} to {}\nso that:     {}\n",
        name_of(question.what),
        question.key_word(),
        question.shown_value(question.search.from),
        question.shown_value(question.search.to),
        wanted_words(question)
    );
    return text
        + fmt::format(
               "\n  {:<11}{:<24}{:<18}{:>8}\n",
               "solve",
               question.key.key,
               question.is_angle() ? "flange angle" : "share used",
               "seconds"
        );
}

std::string trial_line(const Question& question, const process::ValueTrial& trial) {
    return row(
        trial.is_check ? "whole run" : "trial",
        question.shown_value(trial.value),
        trial.figure ? figure_text(question, *trial.figure) : "no balance",
        trial.seconds
    );
}

std::string along_line(const process::AlongRun& run) {
    const auto [least, most] = std::ranges::minmax(run.walls);
    return row(
        "along",
        fmt::format("{:.2f} to {:.2f} deg", units::degrees(least), units::degrees(most)),
        run.angles.empty() ? "no balance" : angle_text(run.most_off) + " off",
        run.seconds
    );
}

std::string answer_text(const Question& question, const Answer& answer) {
    std::string text = "\n";
    if (answer.one && !(answer.along && answer.along->end == AlongEnd::found)) {
        text += one_text(question, *answer.one);
    }
    if (answer.along) {
        text += along_text(question, answer);
    }
    text += answer.no_along.empty() ? "" : as_lines(answer.no_along);
    if (const process::JobResult* run = answer.check()) {
        text += "\n" + check_words(question, *run, answer.is_found());
    }
    return text + "\n";
}

} // namespace flangewright::command_line
