#include "io/command_line/from_step.hpp"

#include "io/key_file/excerpt.hpp"
#include "solver/process/job_result.hpp"

#include <fmt/format.h>

#include <charconv>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;

/// "1 bend-down, 2 release, 3 trim".
std::string numbered(const std::vector<job::StepKind>& steps) {
    std::string text;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        text += fmt::format("{}{} {}", i == 0 ? "" : ", ", i + 1, process::name_of(steps[i]));
    }
    return text;
}

/// Places, counted from 1, of the steps a word or number means.
std::vector<std::size_t>
places_of(const std::string& step, const std::vector<job::StepKind>& steps) {
    std::size_t number = 0;
    const char* end = step.data() + step.size();
    const auto outcome = std::from_chars(step.data(), end, number);
    const bool is_number = outcome.ec == std::errc() && outcome.ptr == end;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (is_number ? number == i + 1 : step == process::name_of(steps[i])) {
            places.push_back(i + 1);
        }
    }
    return places;
}

InputProblem
problem(const std::string& step, const std::vector<job::StepKind>& steps, std::string remedy) {
    return {
        "command line",
        0,
        0,
        "--from",
        key_file::quoted_excerpt(step),
        "one of the steps " + numbered(steps),
        std::move(remedy)};
}

} // namespace

Result<std::size_t, InputProblem> steps_before(
    const std::string& step, const std::vector<job::StepKind>& steps, std::size_t n_finished
) {
    const std::vector<std::size_t> places = places_of(step, steps);
    if (places.empty()) {
        return tl::unexpected(problem(step, steps, "write a step's name or its number"));
    }
    if (places.size() > 1) {
        return tl::unexpected(
            problem(step, steps, "write its number, since there are several of that name")
        );
    }
    if (places.front() > n_finished + 1) {
        return tl::unexpected(problem(
            step,
            steps,
            n_finished == 0
                ? "no step is finished in this folder: run without --from"
                : fmt::format(
                    "step {} is the last one finished in this folder; write --resume to go on "
                    "behind it",
                    n_finished
                )
        ));
    }
    return places.front() - 1;
}

} // namespace flangewright::command_line
