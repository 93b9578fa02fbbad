#include "io/command_line/man_page.hpp"

#include <fmt/format.h>

#include <sstream>
#include <string_view>

namespace flangewright::command_line {

namespace {

// Hyphens that are typed, and what man would take for orders.
std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        if (c == '-') {
            safe += "\\-";
        } else if (c == '\\') {
            safe += "\\e";
        } else {
            safe += c;
        }
    }
    return safe.starts_with('.') || safe.starts_with('\'') ? "\\&" + safe : safe;
}

std::string paragraph(const std::string& text) {
    return ".PP\n" + escaped(text) + "\n";
}

// Lines that are set in are typed as they stand; a blank line parts paragraphs.
std::string body(const std::string& text) {
    std::string page;
    bool begins = true;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("  ")) {
            page += ".PP\n.nf\n.RS\n\\fB" + escaped(line.substr(2)) + "\\fR\n.RE\n.fi\n";
        } else if (line.empty()) {
            begins = true;
            continue;
        } else {
            page += begins ? paragraph(line) : escaped(line) + "\n";
        }
        begins = false;
    }
    return page;
}

std::string joined_names(const OptionWords& option) {
    std::string names;
    for (const std::string& name : option.names) {
        names += fmt::format("{}\\fB{}\\fR", names.empty() ? "" : ", ", escaped(name));
    }
    return option.takes_value && !option.is_positional ? names + " \\fIVALUE\\fR" : names;
}

std::string options_of(const CommandWords& command) {
    std::string page;
    for (const OptionWords& option : command.options) {
        page += ".TP\n" + joined_names(option) + "\n" + escaped(option.meaning) + "\n";
    }
    return page;
}

std::string usage(const CommandWords& command, const std::string& path) {
    std::string line = "\\fB" + escaped(path) + "\\fR";
    for (const OptionWords& option : command.options) {
        if (option.is_positional) {
            line += fmt::format(
                " \\fI{}\\fR{}", escaped(option.names.front()), option.takes_many ? "..." : ""
            );
        }
    }
    return line + " [\\fIoptions\\fR]\n";
}

// Commands that have commands of their own stand for these.
template <typename Write>
void for_each_command(const CommandWords& command, const std::string& path, const Write& write) {
    for (const CommandWords& next : command.commands) {
        const std::string full = path + " " + next.name;
        write(next, full);
        for_each_command(next, full, write);
    }
}

std::string commands_of(const CommandWords& program) {
    std::string page;
    for_each_command(program, program.name, [&page](const CommandWords& next, const auto& path) {
        page += ".SS \"" + path + "\"\n" + paragraph(next.meaning + ".");
        page += options_of(next) + body(next.footer);
    });
    return page;
}

std::string synopsis_of(const CommandWords& program) {
    std::string page;
    for_each_command(program, program.name, [&page](const CommandWords& next, const auto& path) {
        if (next.commands.empty()) {
            page += (page.empty() ? "" : ".br\n") + usage(next, path);
        }
    });
    return page;
}

constexpr const char* surroundings = R"(.SH ENVIRONMENT
.TP
.B XDG_CONFIG_HOME
Your own sheets lie in its folder flangewright/sheets; where it is not set, in ~/.config/flangewright/sheets.
.TP
.B DISPLAY
The X display that pictures are drawn on, unseen. Without one the program starts Xvfb for itself; with
neither, pictures are left out and a warning says so.
.SH FILES
.TP
.I /usr/share/doc/flangewright
Tutorial, keys of the case file, outputs, theory and its sources, example cases.
.SH CAUTIONS
A forming estimate. It is not approved data, not a strength calculation and no finding of
airworthiness: the drawing, the maker's data, local rules and licensed people come first. Always form
a trial piece of the same sheet with the same edge finish.
.SH SEE ALSO
.BR paraview (1),
.BR Xvfb (1)
)";

} // namespace

std::string man_page(const CommandWords& program, const std::string& version) {
    return fmt::format(
               ".TH FLANGEWRIGHT 1 \"\" \"flangewright {}\" \"User Commands\"\n"
               ".SH NAME\nflangewright \\- strain and springback of hand\\-formed sheet flanges\n"
               ".SH SYNOPSIS\n",
               escaped(version)
           )
        + synopsis_of(program) + ".SH DESCRIPTION\n" + body(program.meaning) + ".SH COMMANDS\n"
        + commands_of(program) + ".SH OPTIONS\n" + options_of(program)
        + ".SH EXAMPLE AND EXIT CODES\n" + body(program.footer) + surroundings;
}

} // namespace flangewright::command_line
