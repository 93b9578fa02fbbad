#include "io/command_line/solve_for_question.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/measure.hpp"
#include "io/key_file/text_file.hpp"
#include "io/key_file/written_text.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;
using key_file::Node;
using Problems = std::vector<InputProblem>;

InputProblem on_command_line(
    const std::string& option, const std::string& found, std::string allowed, std::string remedy
) {
    return {"command line", 0, 0, option, found, std::move(allowed), std::move(remedy)};
}

/// Reads what the options say, and collects what is wrong with them and with the case.
class Asking {
public:
    Asking(const SolveForArguments& arguments, Question& question)
        : arguments_(arguments), question_(question) {}

    Problems problems;

    void read() {
        choose_key();
        read_aim();
        if (problems.empty()) {
            read_tolerance();
            read_bounds();
        }
    }

private:
    void object(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    ) {
        problems.push_back({question_.own.file, line_of(key), 0, key, found, allowed, remedy});
    }

    [[nodiscard]] const Node::Member* member(const std::string& path) const {
        const std::size_t dot = path.find('.');
        const Node::Member* section = document_->root.member(path.substr(0, dot));
        return section == nullptr ? nullptr : section->value.member(path.substr(dot + 1));
    }

    [[nodiscard]] int line_of(const std::string& path) const {
        const Node::Member* found = member(path);
        return found == nullptr ? 0 : found->place.line;
    }

    void choose_key() {
        switch (question_.what) {
        case SolveFor::undercut:
            question_.key = {"block", "wall_angle"};
            ask_for_drive_home();
            break;
        case SolveFor::flange_depth:
            question_.key = {"blank", member("blank.flat_width") ? "flat_width" : "flange_depth"};
            break;
        case SolveFor::plan_radius:
            question_.key = {
                "bend_line", member("bend_line.wall_radius") ? "wall_radius" : "radius"};
            break;
        case SolveFor::nose_radius:
            question_.key = {"block", "nose_radius"};
            break;
        }
        read_own_value();
    }

    // Else the wall decides nothing.
    void ask_for_drive_home() {
        const job::Job& job = question_.as_is.job;
        if (job.drive.kind == job::DriveKind::wiper) {
            object(
                "drive.kind",
                "a wiper",
                "a leaf for an undercut",
                "write kind = \"leaf\" if the flange is folded against the wall: a tool that "
                "goes straight down can't fold past square, however far the wall is undercut"
            );
        }
        for (const std::string key : {"angle", "passes"}) {
            const std::string path = "drive." + key;
            if (member(path) != nullptr) {
                object(
                    path,
                    key + " that ends the drive whatever the wall is",
                    "none, so that the flange is driven home to the wall",
                    "delete " + key + " in a copy of the case and ask again"
                );
            }
        }
        const bool is_let_go = std::ranges::any_of(job.steps, [](job::StepKind kind) {
            return !job::ends_on_block(kind);
        });
        if (!is_let_go) {
            object(
                "run.steps",
                "no step that lets the part go",
                "a \"release\" after the bend",
                "write steps = [\"bend-down\", \"release\"]"
            );
        }
    }

    void read_own_value() {
        const std::string path = question_.key_word();
        const Node::Member* found = member(path);
        process::ValueSearch& search = question_.search;
        const job::Job& job = question_.as_is.job;
        if (question_.is_angle()) {
            search.as_case = job.block.wall_angle;
            question_.wanted_along = job.block.wall_angles;
        } else if (found == nullptr) {
            object(
                path,
                "nothing: a line without one radius",
                "curve = \"concave\" or \"convex\"",
                "ask for the flange depth or the nose radius instead"
            );
        } else if (found->value.kind == key_file::Kind::list) {
            object(
                path,
                "a table over the station",
                "one value",
                "give one value in a copy of the case, the largest, and ask again"
            );
        } else {
            search.as_case =
                key_file::measured(found->value, key_file::Measure::length, question_.own.unit)
                    .value_or(0);
        }
    }

    void refuse(const std::string& option, const char* why) {
        problems.push_back(on_command_line(
            option, option, fmt::format("{} only with {}", option, why), "leave it out"
        ));
    }

    void read_aim() {
        process::ValueSearch& search = question_.search;
        if (question_.is_angle()) {
            search.aim = process::Aim::flange_angle;
            search.wanted = units::radians(90);
            if (!arguments_.limit.empty()) {
                refuse("--limit", "flange-depth, plan-radius and nose-radius");
            }
            if (const auto angle = value_of("--angle", arguments_.angle)) {
                search.wanted = *angle;
                question_.wanted_along = {};
                keep_between("--angle", *angle, units::radians(5), units::radians(150));
            } else if (!question_.wanted_along.is_empty()) {
                search.wanted = question_.wanted_along.most();
            }
            return;
        }
        search.aim = question_.what == SolveFor::flange_depth ? process::Aim::most_share
                                                              : process::Aim::least_share;
        if (!arguments_.angle.empty()) {
            refuse("--angle", "undercut");
        }
        read_limit();
    }

    void read_limit() {
        const std::string& word = arguments_.limit;
        if (word.empty()) {
            return; // as far as the verdict holds
        }
        const units::Written percent = units::read_percent(word);
        const auto plain = units::split_number(word);
        const double share = percent ? *percent : plain && plain->unit.empty() ? plain->number : 0;
        if (!(share >= 0.05 && share <= 1)) {
            problems.push_back(on_command_line(
                "--limit",
                key_file::quoted_excerpt(word),
                "0.05 to 1, or \"5 %\" to \"100 %\"",
                "write the share of the limit that may be used, 0.8 say"
            ));
            return;
        }
        question_.search.wanted = share;
    }

    // Of an angle in degrees, or a length in the case's unit.
    std::optional<double> value_of(const std::string& option, const std::string& word) {
        if (word.empty()) {
            return std::nullopt;
        }
        if (!question_.is_angle()) {
            const units::Written length = units::read_length(word, question_.own.unit);
            if (!length) {
                problems.push_back(on_command_line(
                    option,
                    key_file::quoted_excerpt(word),
                    length.error().allowed,
                    length.error().remedy
                ));
                return std::nullopt;
            }
            return *length;
        }
        const auto split = units::split_number(word);
        if (!split || !(split->unit.empty() || split->unit == "deg")) {
            problems.push_back(on_command_line(
                option,
                key_file::quoted_excerpt(word),
                "an angle in degrees, such as 92.5",
                "write the degrees turned through, 90 is square"
            ));
            return std::nullopt;
        }
        return units::radians(split->number);
    }

    void keep_between(const std::string& option, double value, double least, double most) {
        if (!(value >= least * (1 - 1e-9) && value <= most * (1 + 1e-9))) {
            problems.push_back(on_command_line(
                option,
                question_.shown(value),
                question_.shown(least) + " to " + question_.shown(most),
                "choose another value"
            ));
        }
    }

    void read_tolerance() {
        process::ValueSearch& search = question_.search;
        const std::optional<double> asked = value_of("--tolerance", arguments_.tolerance);
        if (question_.is_angle()) {
            search.figure_tolerance = asked.value_or(units::radians(0.3));
            search.tolerance = search.figure_tolerance;
            keep_between(
                "--tolerance", search.figure_tolerance, units::radians(0.05), units::radians(5)
            );
            return;
        }
        search.tolerance = asked.value_or(usual_tolerance());
        keep_between("--tolerance", search.tolerance, 0.05, 0.5 * search.as_case);
    }

    // Of depth 0.5 mm, of the radii 2 % and 0.1 mm at least.
    [[nodiscard]] double usual_tolerance() const {
        const double own = question_.search.as_case;
        return question_.what == SolveFor::flange_depth ? std::min(0.5, 0.05 * own)
                                                        : std::max(0.1, 0.02 * own);
    }

    void read_bounds() {
        process::ValueSearch& search = question_.search;
        const std::optional<double> from = value_of("--from", arguments_.from);
        const std::optional<double> to = value_of("--to", arguments_.to);
        if (!problems.empty()) {
            return;
        }
        check_allowed("--from", from);
        check_allowed("--to", to);
        if (!problems.empty()) {
            return;
        }
        search.from = from ? question_.rounded(*from) : usual_bound(usual_from());
        search.to = to ? question_.rounded(*to) : usual_bound(usual_to());
        if (!(search.from + search.tolerance < search.to)) {
            problems.push_back(on_command_line(
                from ? "--from" : "--to",
                question_.shown(search.from) + " to " + question_.shown(search.to),
                "bounds that rise, further apart than the tolerance of "
                    + question_.shown(search.tolerance),
                "write the smaller one after --from and the larger one after --to"
            ));
        }
    }

    void check_allowed(const std::string& option, const std::optional<double>& bound) {
        if (!bound) {
            return;
        }
        const auto text = question_.text_with(*bound);
        if (!text) {
            problems.push_back(text.error());
            return;
        }
        const case_file::CaseFileResult read = case_file::read_case_text(*text, question_.own.file);
        if (!read) {
            const InputProblem& first = read.error().front();
            problems.push_back(on_command_line(
                option,
                question_.shown(*bound) + " for " + question_.key_word(),
                first.key == question_.key_word()
                    ? first.allowed
                    : fmt::format("what {} lets: {}", first.key, first.allowed),
                "choose another bound"
            ));
        }
    }

    [[nodiscard]] double usual_from() const {
        const process::ValueSearch& search = question_.search;
        if (!question_.is_angle()) {
            return 0.25 * search.as_case;
        }
        // Below what is wanted, too: cut ends may stand closer than the block.
        constexpr double below = units::radians(10);
        const outline::Profile& along = question_.wanted_along;
        const double wanted = along.is_empty() ? search.wanted : along.least();
        return std::max(units::radians(5), wanted - below);
    }

    [[nodiscard]] double usual_to() const {
        const process::ValueSearch& search = question_.search;
        return question_.is_angle()
            ? std::min(units::radians(150), search.wanted + units::radians(30))
            : 4 * search.as_case;
    }

    // As near to it as the case allows, from its own value on.
    [[nodiscard]] double usual_bound(double wanted) const {
        if (question_.job_at(wanted)) {
            return question_.rounded(wanted);
        }
        double good = question_.search.as_case;
        double bad = wanted;
        for (int i = 0; i < 12; ++i) {
            const double middle = 0.5 * (good + bad);
            (question_.job_at(middle) ? good : bad) = middle;
        }
        return question_.rounded(good);
    }

    const SolveForArguments& arguments_;
    Question& question_;
    Result<key_file::Document, InputProblem> document_ =
        key_file::document_from(question_.own.text, question_.own.file);
};

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

double Question::rounded(double value) const {
    const double number = std::stod(written(value));
    return is_angle() ? units::radians(number) : units::length_of(number, own.unit);
}

Result<std::string, InputProblem> Question::text_with(double value) const {
    return key_file::with_value(own.text, own.file, key, written(value));
}

Result<std::string, InputProblem>
Question::text_with(const std::vector<double>& stations, const std::vector<double>& walls) const {
    std::string table;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        // Rounded down: the last one may not lie past the line's end.
        const double fine = own.unit == units::LengthUnit::inch ? 1000 : 100;
        const double station =
            std::floor(tables::in_unit(stations[i], own.unit) * fine + 1e-6) / fine;
        table += fmt::format(
            "{}[{}, {}]", i == 0 ? "" : ", ", units::plain_number(station, 3), written(walls[i])
        );
    }
    return key_file::with_value(own.text, own.file, key, "[" + table + "]");
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
    Asking asking(arguments, question);
    asking.read();
    if (!asking.problems.empty()) {
        return tl::unexpected(asking.problems);
    }
    return question;
}

} // namespace flangewright::command_line
