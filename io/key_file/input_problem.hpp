// One thing wrong with what a user wrote, and how to put it right.
#pragma once

#include <string>
#include <vector>

namespace flangewright::key_file {

/// Where and what, in the user's words. `line` and `column` count from 1; 0 means the whole file.
struct InputProblem {
    std::string file;
    int line = 0;
    int column = 0;
    std::string key; ///< "sheet.thickness", or what else is meant
    std::string found;
    std::string allowed;
    std::string remedy; ///< an order to the user: "write ..."
};

/// One line: "FILE:LINE: KEY: found ..., allowed ..., do: ...".
[[nodiscard]] std::string line_for(const InputProblem& problem);

/// By line, then column, so that a user works from the top down.
void sort_by_place(std::vector<InputProblem>& problems);

} // namespace flangewright::key_file
