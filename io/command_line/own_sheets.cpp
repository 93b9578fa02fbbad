#include "io/command_line/own_sheets.hpp"

#include "io/command_line/command_line.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/sheet_library/user_folder.hpp"

#include <ostream>

namespace flangewright::command_line {

int use_own_sheets(const std::optional<std::filesystem::path>& folder, Terminal& terminal) {
    std::error_code ignored;
    if (folder && !std::filesystem::is_directory(*folder, ignored)) {
        terminal.err << key_file::line_for(
            {"command line",
             0,
             0,
             "--sheets",
             key_file::quoted_excerpt(folder->string()),
             "a folder that holds sheets",
             "check the path"}
        ) << "\n";
        return bad_input;
    }
    const std::optional<std::filesystem::path> used =
        folder ? folder : sheet_library::users_own_folder();
    if (!used) {
        return done;
    }
    sheet_library::Library library = sheet_library::library_with(*used);
    for (const key_file::InputProblem& problem : library.problems) {
        terminal.err << key_file::line_for(problem) << "\n";
    }
    sheet_library::use_library(std::move(library));
    return done;
}

} // namespace flangewright::command_line
