#include "io/command_line/solve_for_question.hpp"

#include "io/command_line/solve_for_bounds.hpp"
#include "io/command_line/solve_for_key.hpp"
#include "io/command_line/solve_for_options.hpp"
#include "io/key_file/document.hpp"
#include "io/key_file/text_file.hpp"
#include "io/key_file/written_text.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;
using key_file::Node;
using Problems = std::vector<InputProblem>;

int n_decimals(const Question& question) {
    return !question.is_angle() && question.own.unit == units::LengthUnit::inch ? 3 : 2;
}

std::optional<job::Job>
job_of(const Result<std::string, InputProblem>& text, const std::string& file) {
    if (!text) {
        return std::nullopt;
    }
    case_file::CaseFileResult read = case_file::read_case_text(*text, file);
    return read ? std::optional(std::move(read->job)) : std::nullopt;
}

} // namespace

std::string Question::written(double value) const {
    const double number = is_angle() ? units::degrees(value) : tables::in_unit(value, own.unit);
    return units::plain_number(number, n_decimals(*this));
}

std::string Question::shown(double value) const {
    return is_angle() ? tables::shown_number(units::degrees(value), 2) + " deg"
                      : tables::shown_length(value, own.unit);
}

std::string Question::shown_value(double value) const {
    return shown(value) + (table.is_empty() ? "" : " where deepest");
}

double Question::rounded(double value) const {
    const double number = std::stod(written(value));
    return is_angle() ? units::radians(number) : units::length_of(number, own.unit);
}

double Question::added(double value) const {
    return table.is_empty() ? 0 : value - table.most();
}

Result<std::string, InputProblem> Question::text_with(double value) const {
    if (table.is_empty()) {
        return key_file::with_value(own.text, own.file, key, written(value));
    }
    std::vector<double> stations;
    std::vector<double> values;
    for (const outline::ProfilePoint& point : table.points()) {
        stations.push_back(point.station);
        values.push_back(point.value + added(value));
    }
    return text_with(stations, values);
}

Result<std::string, InputProblem>
Question::text_with(const std::vector<double>& stations, const std::vector<double>& values) const {
    std::string pairs;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        // Rounded down: the last one may not lie past the line's end.
        const double fine = own.unit == units::LengthUnit::inch ? 1000 : 100;
        const double station =
            std::floor(tables::in_unit(stations[i], own.unit) * fine + 1e-6) / fine;
        pairs += fmt::format(
            "{}[{}, {}]", i == 0 ? "" : ", ", units::plain_number(station, 3), written(values[i])
        );
    }
    return key_file::with_value(own.text, own.file, key, "[" + pairs + "]");
}

Result<std::string, InputProblem> Question::with_whole_path(const std::string& text) const {
    const auto document = key_file::document_from(text, own.file);
    const Node::Member* line = document ? document->root.member("bend_line") : nullptr;
    const Node::Member* drawing = line == nullptr ? nullptr : line->value.member("file");
    if (drawing == nullptr) {
        return text;
    }
    const std::filesystem::path beside = std::filesystem::path(own.file).parent_path();
    const std::filesystem::path whole =
        std::filesystem::absolute(beside / drawing->value.text).lexically_normal();
    return key_file::with_value(
        text, own.file, {"bend_line", "file"}, key_file::quoted(whole.string())
    );
}

std::optional<job::Job> Question::job_at(double value) const {
    return job_of(text_with(value), own.file);
}

std::optional<job::Job>
Question::job_at(const std::vector<double>& stations, const std::vector<double>& walls) const {
    return job_of(text_with(stations, walls), own.file);
}

Result<Question, Problems> question_of(const SolveForArguments& arguments) {
    const case_file::CaseFileResult read = case_file::read_case_file(arguments.case_file);
    if (!read) {
        return tl::unexpected(read.error());
    }
    const auto text = key_file::read_text_file(arguments.case_file);
    if (!text) {
        return tl::unexpected(Problems{text.error()});
    }
    Question question;
    question.what = arguments.what;
    question.own = {arguments.case_file.string(), *text, read->unit};
    question.as_is = *read;
    Problems problems = choose_key(question);
    problems = read_aim(arguments, question, problems);
    if (problems.empty()) {
        problems = read_tolerance(arguments, question);
        problems = read_bounds(arguments, question, problems);
    }
    if (!problems.empty()) {
        return tl::unexpected(problems);
    }
    return question;
}

} // namespace flangewright::command_line
