#include "io/command_line/solve_for_json.hpp"

#include "io/command_line/solve_for_words.hpp"
#include "io/tables/json_figures.hpp"
#include "io/units/angle.hpp"
#include "solver/process/slice_share.hpp"

#include <cmath>

namespace flangewright::command_line {

namespace {

using process::AlongEnd;
using process::SearchEnd;
using tables::Json;

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
            {{"station_mm", run.stations},
             {"wall_angle_deg", degrees_of(run.walls)},
             {"flange_angle_deg", degrees_of(run.angles)},
             {"seconds", tables::number(run.seconds)}}
        );
    }
    Json along{
        {"end", word_for(answer.along->end)},
        {"station_mm", nullptr},
        {"wanted_deg", nullptr},
        {"wall_angle_deg", nullptr},
        {"flange_angle_deg", nullptr},
        {"most_off_deg", nullptr},
        {"runs", runs}};
    if (answer.is_along()) {
        const process::AlongRun& nearest = *answer.along->nearest;
        std::vector<double> wanted;
        for (const double station : nearest.stations) {
            wanted.push_back(answer.wanted.at(station));
        }
        along["station_mm"] = nearest.stations;
        along["wanted_deg"] = degrees_of(wanted);
        along["wall_angle_deg"] = degrees_of(nearest.walls);
        along["flange_angle_deg"] = degrees_of(nearest.angles);
        along["most_off_deg"] = degrees(nearest.most_off);
    }
    return along;
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
        {"added_all_along_mm",
         !question.table.is_empty() && answer.one && answer.one->check
             ? tables::number(question.added(answer.one->value))
             : Json(nullptr)},
        {"one_value", answer.one ? one_json(question, *answer.one) : Json(nullptr)},
        {"along", answer.along ? along_json(answer) : Json(nullptr)},
        {"check", check_json(answer.check())},
        {"caution",
         "A forming estimate, not approved data. Prove it on a coupon of the same sheet "
         "and edge finish."}};
    return all.dump(2) + "\n";
}

} // namespace flangewright::command_line
