// Commands and options as data: what the manual page and the shell's completion are made of.
#pragma once

#include <string>
#include <vector>

namespace flangewright::command_line {

/// An option, or a word that stands by itself.
struct OptionWords {
    std::vector<std::string> names; ///< "-h", "--help"; of a word by itself one name: "CASE"
    std::string meaning;
    bool is_positional = false;
    bool takes_value = false;
    bool takes_many = false; ///< values
};

/// A command with what may follow it.
struct CommandWords {
    std::string name;
    std::string meaning;
    std::string footer; ///< example and notes, as the help shows them
    std::vector<OptionWords> options;
    std::vector<CommandWords> commands;
};

/// The whole program, from the same declarations that its arguments are read by.
[[nodiscard]] CommandWords command_tree();

} // namespace flangewright::command_line
