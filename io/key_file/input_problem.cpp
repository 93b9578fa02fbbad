#include "io/key_file/input_problem.hpp"

#include "io/key_file/excerpt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace flangewright::key_file {

std::string line_for(const InputProblem& problem) {
    const std::string place =
        problem.line > 0 ? fmt::format("{}:{}", problem.file, problem.line) : problem.file;
    return on_one_line(fmt::format(
        "{}: {}: found {}, allowed {}, do: {}",
        place,
        problem.key,
        problem.found,
        problem.allowed,
        problem.remedy
    ));
}

void sort_by_place(std::vector<InputProblem>& problems) {
    std::stable_sort(
        problems.begin(),
        problems.end(),
        [](const InputProblem& a, const InputProblem& b) {
            return std::tie(a.line, a.column) < std::tie(b.line, b.column);
        }
    );
}

} // namespace flangewright::key_file
