#include "io/command_line/solve_for_bounds.hpp"

#include "io/command_line/refusal.hpp"
#include "io/command_line/solve_for_options.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;
using Problems = std::vector<InputProblem>;

/// Reads the bounds, and collects what is wrong with them.
class Bounding {
public:
    Bounding(const SolveForArguments& arguments, Question& question, Problems so_far)
        : problems(std::move(so_far)), arguments_(arguments), question_(question) {}

    Problems problems;

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
            problems.push_back(option_problem(
                from ? "--from" : "--to",
                question_.shown(search.from) + " to " + question_.shown(search.to),
                "bounds that rise, further apart than the tolerance of "
                    + question_.shown(search.tolerance),
                "write the smaller one after --from and the larger one after --to"
            ));
        }
    }

private:
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
            problems.push_back(option_problem(
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
};

} // namespace

Problems read_bounds(const SolveForArguments& arguments, Question& question, Problems so_far) {
    Bounding bounding(arguments, question, std::move(so_far));
    bounding.read_bounds();
    return bounding.problems;
}

} // namespace flangewright::command_line
