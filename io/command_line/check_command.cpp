#include "io/command_line/check_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/hand_text.hpp"
#include "io/command_line/words.hpp"
#include "solver/findings/hand_calculation.hpp"

#include <ostream>

namespace flangewright::command_line {

int check_case(const CheckArguments& arguments, Terminal& terminal) {
    const case_file::CaseFileResult file = case_file::read_case_file(arguments.case_file);
    if (!file) {
        terminal.err << lines_for(file.error());
        return bad_input;
    }
    terminal.out << file->job.title << "\n"
                 << arguments.case_file.string() << ": no problem found\n\n"
                 << kinks_text(*file) << sheet_text(*file) << "\n"
                 << hand_text(*file, findings::calculate_by_hand(file->job)) << "\n"
                 << caution();
    return done;
}

} // namespace flangewright::command_line
