#include "io/command_line/completion.hpp"

#include "io/command_line/own_sheets.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "solver/process/job_result.hpp"

#include <algorithm>
#include <array>
#include <sstream>
#include <string_view>
#include <utility>

namespace flangewright::command_line {

namespace {

using Words = std::vector<std::string>;
constexpr const char* case_files = ":files toml";
constexpr const char* tables = ":files csv";

// Where words end: the command reached and what stands open.
struct Place {
    const CommandWords* command = nullptr;
    const OptionWords* open_option = nullptr; // its value comes next
    std::size_t n_positional = 0; // words by themselves so far
};

bool is_option(const std::string& word) {
    return word.starts_with('-') && word.size() > 1;
}

const OptionWords* option_named(const CommandWords& command, const std::string& name) {
    const auto found = std::ranges::find_if(command.options, [&name](const OptionWords& option) {
        return !option.is_positional && std::ranges::find(option.names, name) != option.names.end();
    });
    return found == command.options.end() ? nullptr : &*found;
}

Place place_after(const CommandWords& program, const Words& before) {
    Place place{&program};
    for (const std::string& word : before) {
        if (place.open_option != nullptr) {
            place.open_option = nullptr;
            continue;
        }
        if (is_option(word)) {
            const OptionWords* option = option_named(*place.command, word);
            place.open_option = option != nullptr && option->takes_value ? option : nullptr;
            continue;
        }
        const auto next = std::ranges::find(place.command->commands, word, &CommandWords::name);
        if (next != place.command->commands.end()) {
            place = {&*next};
        } else {
            ++place.n_positional;
        }
    }
    return place;
}

const OptionWords* positional_at(const Place& place) {
    const OptionWords* last = nullptr;
    std::size_t n = 0;
    for (const OptionWords& option : place.command->options) {
        if (option.is_positional) {
            last = &option;
            if (n++ == place.n_positional) {
                return last;
            }
        }
    }
    return last != nullptr && last->takes_many ? last : nullptr;
}

// The user's own sheets are looked up as the command would; its complaints are not for now.
Words sheet_names(const Words& words) {
    std::ostringstream unheard;
    Terminal terminal{unheard, unheard};
    const auto option = std::ranges::find(words, "--sheets");
    const bool has_folder = option != words.end() && std::next(option) != words.end();
    if (use_own_sheets(
            has_folder ? std::optional<std::filesystem::path>(*std::next(option)) : std::nullopt,
            terminal
        )
        != 0) {
        return {};
    }
    Words names;
    for (const sheet_library::KnownSheet& sheet : sheet_library::known_sheets()) {
        names.push_back(sheet.material.name);
    }
    return names;
}

Words edge_finishes() {
    Words names;
    for (const material::EdgeFinish finish : material::edge_finishes) {
        names.push_back(material::word_for(finish));
    }
    return names;
}

Words step_names() {
    using job::StepKind;
    Words names;
    for (const StepKind kind :
         {StepKind::bend_down,
          StepKind::release,
          StepKind::trim,
          StepKind::anneal,
          StepKind::heat_treat,
          StepKind::set_on_block,
          StepKind::return_bend}) {
        names.push_back(process::name_of(kind));
    }
    return names;
}

// By its name, which means the same in every command. What is not listed is for the user to write.
Words values_of(const OptionWords& option, const Words& words) {
    const std::string& name = option.names.back();
    if (name == "NAME" || name == "--sheet") {
        return sheet_names(words);
    }
    if (name == "--finish") {
        return edge_finishes();
    }
    if (name == "--from") {
        return step_names();
    }
    if (name == "--direction") {
        return {"0", "45", "90"};
    }
    static const std::array<std::pair<std::string_view, const char*>, 8> files{{
        {"CASE", case_files},
        {"CASES", case_files},
        {"TEST", tables},
        {"MEASURED", tables},
        {"--measured", tables},
        {"--sheets", ":folders"},
        {"--picture", ":files png"},
        {"--out", ":files"},
    }};
    const auto found =
        std::ranges::find(files, name, &std::pair<std::string_view, const char*>::first);
    return found == files.end() ? Words{} : Words{found->second};
}

Words option_names(const CommandWords& command) {
    Words names;
    for (const OptionWords& option : command.options) {
        if (!option.is_positional) {
            names.push_back(option.names.back());
        }
    }
    return names;
}

Words offers(const CommandWords& program, const Words& words) {
    const Words before(words.begin(), words.empty() ? words.end() : std::prev(words.end()));
    const Place place = place_after(program, before);
    if (place.open_option != nullptr) {
        return values_of(*place.open_option, words);
    }
    if (!words.empty() && words.back().starts_with('-')) {
        return option_names(*place.command);
    }
    if (!place.command->commands.empty()) {
        Words names;
        if (place.n_positional > 0) {
            return names; // a word that is no command
        }
        std::ranges::transform(
            place.command->commands, std::back_inserter(names), &CommandWords::name
        );
        return names;
    }
    const OptionWords* positional = positional_at(place);
    return positional == nullptr ? Words{} : values_of(*positional, words);
}

} // namespace

std::string completions(const CommandWords& program, const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& offer : offers(program, words)) {
        text += offer + "\n";
    }
    return text;
}

} // namespace flangewright::command_line
