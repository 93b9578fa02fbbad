#include "io/command_line/refusal.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/words.hpp"

#include <ostream>

namespace flangewright::command_line {

using key_file::InputProblem;

int refuse(const InputProblem& problem, Terminal& terminal) {
    terminal.err << key_file::line_for(problem) << "\n";
    return bad_input;
}

int refuse(const OutsideProblem& problem, Terminal& terminal) {
    terminal.err << line_for(problem) << "\n";
    return outside_trouble;
}

InputProblem
option_problem(std::string option, std::string found, std::string allowed, std::string remedy) {
    return {
        "command line",
        0,
        0,
        std::move(option),
        std::move(found),
        std::move(allowed),
        std::move(remedy)};
}

} // namespace flangewright::command_line
