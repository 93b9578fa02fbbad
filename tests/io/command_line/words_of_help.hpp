// Commands and options as the help shows them, for tests that nothing is forgotten elsewhere.
#pragma once

#include "io/command_line/arguments.hpp"

#include <regex>
#include <string>
#include <vector>

namespace flangewright::command_line {

/// One command's help: how it is called ("coupon", "read"), its options and the commands below it.
struct HelpWords {
    std::vector<std::string> path;
    std::vector<std::string> options; ///< "--out"
    std::vector<std::string> commands;
};

inline std::vector<std::string> first_groups(const std::string& text, const std::regex& pattern) {
    std::vector<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at) {
        found.push_back((*at)[1].str());
    }
    return found;
}

/// This command and all below it.
inline std::vector<HelpWords> words_of_help(const std::vector<std::string>& path = {}) {
    static const std::regex option("\n +(?:-[a-z],)?(--[a-z-]+)");
    static const std::regex command("\n  ([a-z][a-z-]*)");
    std::vector<std::string> asked = path;
    asked.emplace_back("--help");
    const auto answer = read_arguments(asked);
    const std::string help = answer ? "" : answer.error().text;
    std::vector<HelpWords> all{{path, first_groups(help, option), {}}};
    const std::size_t list = help.find("Subcommands:");
    if (list != std::string::npos) {
        const std::size_t length = help.find("\n\n", list);
        all.front().commands = first_groups(help.substr(list, length - list), command);
    }
    const std::vector<std::string> commands = all.front().commands;
    for (const std::string& next : commands) {
        std::vector<std::string> deeper = path;
        deeper.push_back(next);
        for (HelpWords& words : words_of_help(deeper)) {
            all.push_back(std::move(words));
        }
    }
    return all;
}

} // namespace flangewright::command_line
