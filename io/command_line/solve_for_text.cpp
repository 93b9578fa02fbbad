#include "io/command_line/solve_for_text.hpp"

#include "io/command_line/words.hpp"
#include "io/tables/json_figures.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"
#include "io/units/percent.hpp"
#include "solver/process/slice_share.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::command_line {

namespace {

using process::AlongEnd;
using process::SearchEnd;
using tables::Json;

std::string angle_text(double angle) {
    return fmt::format("{:.2f} deg", units::degrees(angle));
}

std::string figure_text(const Question& question, double figure) {
    return question.is_angle() ? angle_text(figure) : units::percent_text(figure, 1);
}

std::string
row(const std::string& how, const std::string& value, const std::string& figure, double seconds) {
    return fmt::format("  {:<11}{:<24}{:<18}{:>8.1f} s\n", how, value, figure, seconds);
}

const char* name_of(SolveFor what) {
    switch (what) {
    case SolveFor::undercut:
        return "undercut";
    case SolveFor::flange_depth:
        return "deepest flange";
    case SolveFor::plan_radius:
        return "smallest plan radius";
    case SolveFor::nose_radius:
        return "smallest nose radius";
    }
    return "";
}

std::string limit_words(const Question& question) {
    const double limit = question.search.wanted;
    return limit > 0
        ? fmt::format("at most {} of any limit used", units::percent_text(limit, 1))
        : fmt::format(
            "the verdict holds: less than {} of any limit used, half of one on data neither from a "
            "coupon nor published",
            units::percent_text(question.as_is.job.close_share, 1)
        );
}

std::string wanted_words(const Question& question) {
    if (!question.is_angle()) {
        return limit_words(question);
    }
    const std::string tolerance = angle_text(question.search.figure_tolerance);
    return question.wanted_along.is_empty()
        ? fmt::format(
            "a flange angle of {} after release, within {}",
            angle_text(question.search.wanted),
            tolerance
        )
        : fmt::format(
            "after release the flange angles that the case's wall_angle has, within {}", tolerance
        );
}

/// What the last run says of the share, word and mesh.
std::string check_words(const Question& question, const process::JobResult& run, bool is_found) {
    std::string text = is_found ? "Check run, the whole part on the case's own mesh:\n"
                                : "That run, the whole part on the case's own mesh, no answer:\n";
    const std::optional<double> angle = process::loose_angle(run);
    std::vector<std::vector<std::string>> rows;
    if (angle) {
        const std::string error = run.mesh_error
            ? fmt::format(
                "the mesh leaves +-{} deg open",
                tables::shown_error(units::degrees(run.mesh_error->flange_angle), 2)
            )
            : "what the mesh leaves open is not known";
        rows.push_back({"flange angle, mean away from free ends", angle_text(*angle), error});
    }
    const findings::Verdict& verdict = run.verdict;
    rows.push_back(
        {"share of the limit used",
         verdict.share_used ? units::percent_text(*verdict.share_used, 1) : "not known",
         findings::word_for(verdict.word)}
    );
    text += as_columns(rows) + as_lines(verdict.because);
    const bool is_coarse = question.is_angle() && run.mesh_error
        && run.mesh_error->flange_angle > question.search.figure_tolerance;
    if (is_coarse) {
        text += as_lines("The mesh leaves more open than the tolerance asked for: a finer one "
                         "(accuracy = \"fine\") may put the value elsewhere.");
    }
    for (const std::string& warning : run.warnings) {
        text += as_lines(warning);
    }
    return text;
}

std::string at_bound_words(
    const Question& question,
    const char* option,
    double bound,
    const std::optional<process::ValueTrial>& trial
) {
    return fmt::format(
        "  at {} ({}): {}\n",
        question.shown(bound),
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
    std::string text = question.key_word() + " = " + question.shown(found.value);
    if (question.is_angle()) {
        text += fmt::format(" (undercut {:.2f} deg past square)", units::degrees(found.value) - 90);
    }
    return text + "\n";
}

std::string nearest_words(const Question& question, const process::ValueFound& found) {
    return found.check && found.figure ? fmt::format(
               "The nearest run: {} at {}.\n",
               figure_text(question, *found.figure),
               question.shown(found.value)
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

double most_off_anywhere(const Question& question, const process::JobResult& run) {
    double most = 0;
    for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step) {
        if (!job::ends_on_block(step->kind)) {
            for (const findings::StationFindings& at : step->findings.stations) {
                const double wanted = question.wanted_along.is_empty()
                    ? question.search.wanted
                    : question.wanted_along.at(at.station);
                most = std::max(most, std::abs(at.flange_angle - wanted));
            }
            break;
        }
    }
    return most;
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
    for (std::size_t i = 0; i < answer.stations.size(); ++i) {
        rows.push_back(
            {tables::brief_length(answer.stations[i], question.own.unit),
             angle_text(found.nearest->walls[i]),
             angle_text(found.nearest->angles[i]),
             angle_text(answer.wanted[i])}
        );
    }
    text += as_columns(rows)
        + fmt::format(
                "  furthest off: {} at these stations, {} anywhere along the line\n",
                angle_text(found.nearest->most_off),
                angle_text(most_off_anywhere(question, *found.check))
        );
    return text;
}

/// Degrees to a millionth: the way through radians leaves no odd last digits.
Json degrees(double angle) {
    return tables::number(std::round(1e6 * units::degrees(angle)) / 1e6);
}

Json trial_json(const Question& question, const process::ValueTrial& trial) {
    const bool is_angle = question.is_angle();
    return {
        {"how", trial.is_check ? "whole run" : "trial"},
        {is_angle ? "value_deg" : "value_mm",
         is_angle ? degrees(trial.value) : tables::number(trial.value)},
        {is_angle ? "flange_angle_deg" : "share_used",
         trial.figure ? (is_angle ? degrees(*trial.figure) : tables::number(*trial.figure))
                      : Json(nullptr)},
        {"seconds", tables::number(trial.seconds)}};
}

Json degrees_of(const std::vector<double>& angles) {
    Json list = Json::array();
    for (const double angle : angles) {
        list.push_back(degrees(angle));
    }
    return list;
}

const char* word_for(SearchEnd end) {
    switch (end) {
    case SearchEnd::found:
        return "found";
    case SearchEnd::at_bound:
        return "at the bound";
    case SearchEnd::none_in_bounds:
        return "none within the bounds";
    case SearchEnd::not_known:
        return "limit not known";
    case SearchEnd::no_balance:
        return "no equilibrium";
    case SearchEnd::not_near:
        return "not near enough";
    case SearchEnd::stopped:
        return "stopped as asked";
    }
    return "";
}

const char* word_for(AlongEnd end) {
    switch (end) {
    case AlongEnd::found:
        return "found";
    case AlongEnd::not_near:
        return "not near enough";
    case AlongEnd::no_balance:
        return "no equilibrium";
    case AlongEnd::stopped:
        return "stopped as asked";
    }
    return "";
}

Json along_json(const Answer& answer) {
    Json runs = Json::array();
    for (const process::AlongRun& run : answer.along->runs) {
        runs.push_back(
            {{"wall_angle_deg", degrees_of(run.walls)},
             {"flange_angle_deg", degrees_of(run.angles)},
             {"seconds", tables::number(run.seconds)}}
        );
    }
    const bool has_answer = answer.is_along();
    return {
        {"end", word_for(answer.along->end)},
        {"station_mm", answer.stations},
        {"wanted_deg", degrees_of(answer.wanted)},
        {"wall_angle_deg", has_answer ? degrees_of(answer.along->nearest->walls) : Json(nullptr)},
        {"flange_angle_deg",
         has_answer ? degrees_of(answer.along->nearest->angles) : Json(nullptr)},
        {"runs", runs}};
}

Json check_json(const process::JobResult* run) {
    if (run == nullptr) {
        return nullptr;
    }
    const std::optional<double> angle = process::loose_angle(*run);
    return {
        {"flange_angle_deg", angle ? degrees(*angle) : Json(nullptr)},
        {"flange_angle_mesh_error_deg",
         run->mesh_error ? degrees(run->mesh_error->flange_angle) : Json(nullptr)},
        {"share_used", tables::number(run->verdict.share_used)},
        {"verdict", findings::word_for(run->verdict.word)},
        {"because", run->verdict.because},
        {"notes", run->warnings}};
}

Json one_json(const Question& question, const process::ValueFound& found) {
    Json trials = Json::array();
    for (const process::ValueTrial& trial : found.trials) {
        trials.push_back(trial_json(question, trial));
    }
    const auto bound = [&](const std::optional<process::ValueTrial>& trial) {
        return trial ? trial_json(question, *trial) : Json(nullptr);
    };
    const Json value = question.is_angle() ? degrees(found.value) : tables::number(found.value);
    return {
        {"end", word_for(found.end)},
        {question.is_angle() ? "value_deg" : "value_mm", found.check ? value : Json(nullptr)},
        {"at_from", bound(found.at_from)},
        {"at_to", bound(found.at_to)},
        {"trials", trials}};
}

} // namespace

bool Answer::is_found() const {
    return along ? along->end == AlongEnd::found
                 : one && (one->end == SearchEnd::found || one->end == SearchEnd::at_bound);
}

const process::JobResult* Answer::check() const {
    if (is_along()) {
        return along->check.get();
    }
    return one ? one->check.get() : nullptr;
}

std::string question_text(const Question& question) {
    std::string text = fmt::format(
        "Looking for: {}, {} from {} to {}\nso that:     {}\n",
        name_of(question.what),
        question.key_word(),
        question.shown(question.search.from),
        question.shown(question.search.to),
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
        question.shown(trial.value),
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

std::string
answer_json(const Question& question, const Answer& answer, const std::string& program_version) {
    const process::ValueSearch& search = question.search;
    const bool is_angle = question.is_angle();
    const auto value = [&](double number) {
        return is_angle ? degrees(number) : tables::number(number);
    };
    const Json wanted =
        is_angle && question.wanted_along.is_empty() ? degrees(search.wanted) : Json(nullptr);
    const Json all{
        {"schema", 1},
        {"program", "flangewright " + program_version},
        {"case_file", question.own.file},
        {"looked_for", name_of(question.what)},
        {"key", question.key_word()},
        {is_angle ? "from_deg" : "from_mm", value(search.from)},
        {is_angle ? "to_deg" : "to_mm", value(search.to)},
        {is_angle ? "tolerance_deg" : "tolerance_mm", value(search.tolerance)},
        {"wanted_flange_angle_deg", wanted},
        {"share_allowed",
         !is_angle && search.wanted > 0 ? tables::number(search.wanted) : Json(nullptr)},
        {"one_value", answer.one ? one_json(question, *answer.one) : Json(nullptr)},
        {"along", answer.along ? along_json(answer) : Json(nullptr)},
        {"check", check_json(answer.check())},
        {"caution",
         "A forming estimate, not approved data. Prove it on a coupon of the same sheet "
         "and edge finish."}};
    return all.dump(2) + "\n";
}

} // namespace flangewright::command_line
