#include "io/command_line/solve_for_options.hpp"

#include "io/command_line/refusal.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;
using Problems = std::vector<InputProblem>;

/// Reads what the options say, and collects what is wrong with them.
class Asking {
public:
    Asking(const SolveForArguments& arguments, Question& question, Problems so_far)
        : problems(std::move(so_far)), arguments_(arguments), question_(question) {}

    Problems problems;

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

private:
    void refuse(const std::string& option, const char* why) {
        problems.push_back(option_problem(
            option, option, fmt::format("{} only with {}", option, why), "leave it out"
        ));
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
            problems.push_back(option_problem(
                "--limit",
                key_file::quoted_excerpt(word),
                "0.05 to 1, or \"5 %\" to \"100 %\"",
                "write the share of the limit that may be used, 0.8 say"
            ));
            return;
        }
        question_.search.wanted = share;
    }

    void keep_between(const std::string& option, double value, double least, double most) {
        if (!(value >= least * (1 - 1e-9) && value <= most * (1 + 1e-9))) {
            problems.push_back(option_problem(
                option,
                question_.shown(value),
                question_.shown(least) + " to " + question_.shown(most),
                "choose another value"
            ));
        }
    }

    // Of depth 0.5 mm, of the radii 2 % and 0.1 mm at least.
    [[nodiscard]] double usual_tolerance() const {
        const double own = question_.search.as_case;
        return question_.what == SolveFor::flange_depth ? std::min(0.5, 0.05 * own)
                                                        : std::max(0.1, 0.02 * own);
    }

    // Of an angle in degrees, or a length in the case's unit.
    std::optional<double> value_of(const std::string& option, const std::string& word) {
        if (word.empty()) {
            return std::nullopt;
        }
        const auto value = asked_value(question_, option, word);
        if (!value) {
            problems.push_back(value.error());
            return std::nullopt;
        }
        return *value;
    }

    const SolveForArguments& arguments_;
    Question& question_;
};

} // namespace

Result<double, InputProblem>
asked_value(const Question& question, const std::string& option, const std::string& word) {
    if (!question.is_angle()) {
        const units::Written length = units::read_length(word, question.own.unit);
        if (!length) {
            return tl::unexpected(option_problem(
                option,
                key_file::quoted_excerpt(word),
                length.error().allowed,
                length.error().remedy
            ));
        }
        return *length;
    }
    const auto split = units::split_number(word);
    if (!split || !(split->unit.empty() || split->unit == "deg")) {
        return tl::unexpected(option_problem(
            option,
            key_file::quoted_excerpt(word),
            "an angle in degrees, such as 92.5",
            "write the degrees turned through, 90 is square"
        ));
    }
    return units::radians(split->number);
}

Problems read_aim(const SolveForArguments& arguments, Question& question, Problems so_far) {
    Asking asking(arguments, question, std::move(so_far));
    asking.read_aim();
    return asking.problems;
}

Problems read_tolerance(const SolveForArguments& arguments, Question& question) {
    Asking asking(arguments, question, {});
    asking.read_tolerance();
    return asking.problems;
}

} // namespace flangewright::command_line
