#include "io/command_line/arguments.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/command_tree.hpp"
#include "io/command_line/command_words.hpp"
#include "io/command_line/declared_commands.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/key_file/nearest_word.hpp"

#include <fmt/format.h>

#include <sstream>

namespace flangewright::command_line {

namespace {

std::vector<std::string> known_words(const CLI::App& app) {
    std::vector<std::string> words;
    for (const CLI::Option* option : app.get_options()) {
        if (!option->get_lnames().empty()) {
            words.push_back("--" + option->get_lnames().front());
        }
    }
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        words.push_back(command->get_name());
    }
    return words;
}

std::optional<OnlyText> surplus_word(const CLI::App& app, const std::string& asked) {
    const std::vector<std::string> surplus = app.remaining();
    if (surplus.empty()) {
        return std::nullopt;
    }
    const std::vector<std::string> known = known_words(app);
    const auto nearest = key_file::nearest_word(surplus.front(), known);
    return wrong(
        asked,
        key_file::quoted_excerpt(surplus.front()),
        key_file::listed(known),
        nearest ? "write " + *nearest : "see \"" + asked + " --help\""
    );
}

OnlyText no_case(const std::string& command) {
    return wrong(
        "CASE", "nothing", "the path of a case file", "write flangewright " + command + " CASE"
    );
}

Result<Arguments, OnlyText> run_arguments(const RawWords& words) {
    if (words.run_case.empty()) {
        return tl::unexpected(no_case("run"));
    }
    RunArguments run;
    run.case_file = words.run_case;
    run.with_pictures = !words.no_pictures;
    run.with_even_drive = !words.no_even_drive;
    run.with_remedies = !words.no_remedies;
    run.resumes = words.resume || !words.from.empty();
    if (!words.from.empty()) {
        run.from = words.from;
    }
    run.out = path_if_any(words.out);
    run.sheets = path_if_any(words.sheets);
    const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
    if (!n_threads) {
        return tl::unexpected(n_threads.error());
    }
    run.n_threads = *n_threads;
    return run;
}

Result<Arguments, OnlyText> whole_compare_arguments(const RawWords& words) {
    if (words.compare.cases.empty()) {
        return tl::unexpected(no_case("compare"));
    }
    Result<CompareArguments, OnlyText> compare = compare_arguments(words.compare);
    const Result<int, OnlyText> threads = n_threads_of(words.threads);
    if (!compare || !threads) {
        return tl::unexpected(compare ? threads.error() : compare.error());
    }
    compare->n_at_once = *threads;
    compare->with_pictures = !words.no_pictures;
    compare->with_even_drive = !words.no_even_drive;
    compare->with_remedies = !words.no_remedies;
    compare->out = path_if_any(words.out);
    compare->sheets = path_if_any(words.sheets);
    return std::move(*compare);
}

/// As it is asked for: "flangewright coupon read".
std::string full_name(const CLI::App& command) {
    const CLI::App* parent = command.get_parent();
    return parent == nullptr ? "flangewright" : full_name(*parent) + " " + command.get_name();
}

Result<Arguments, OnlyText> coupon_write_arguments(const RawWords& words) {
    if (words.coupon_case.empty()) {
        return tl::unexpected(no_case("coupon write"));
    }
    if (words.out.empty()) {
        return tl::unexpected(wrong(
            "--out",
            "nothing",
            "the folder to write into",
            "write flangewright coupon write CASE --out FOLDER"
        ));
    }
    return CouponWriteArguments{words.coupon_case, words.out, path_if_any(words.sheets)};
}

Result<Arguments, OnlyText> coupon_arguments(const Commands& commands, const RawWords& words) {
    if (commands.coupon_read->parsed()) {
        return coupon_read_arguments(words.coupon_read, words.out, words.sheets);
    }
    if (commands.coupon_write->parsed()) {
        return coupon_write_arguments(words);
    }
    return tl::unexpected(
        wrong("coupon", "nothing", "write or read", "see \"flangewright coupon --help\"")
    );
}

Result<Arguments, OnlyText> solve_for_arguments_of(const RawWords& words) {
    Result<SolveForArguments, OnlyText> arguments = solve_for_arguments(words.solve_for);
    const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
    if (!arguments || !n_threads) {
        return tl::unexpected(arguments ? n_threads.error() : arguments.error());
    }
    arguments->n_threads = *n_threads;
    arguments->out = path_if_any(words.out);
    arguments->sheets = path_if_any(words.sheets);
    arguments->with_pictures = !words.no_pictures;
    return *arguments;
}

std::optional<OnlyText> any_surplus_word(const Commands& commands) {
    if (auto problem = surplus_word(commands.app, "flangewright")) {
        return problem;
    }
    for (const CLI::App* command : commands.all()) {
        if (command->parsed()) {
            if (auto problem = surplus_word(*command, full_name(*command))) {
                return problem;
            }
        }
    }
    return std::nullopt;
}

Result<Arguments, OnlyText> chosen(const Commands& commands, const RawWords& words) {
    if (const auto problem = any_surplus_word(commands)) {
        return tl::unexpected(*problem);
    }
    if (commands.run->parsed()) {
        return run_arguments(words);
    }
    if (commands.compare->parsed()) {
        return whole_compare_arguments(words);
    }
    if (commands.check->parsed()) {
        return words.check_case.empty()
            ? Result<Arguments, OnlyText>(tl::unexpected(no_case("check")))
            : CheckArguments{words.check_case, path_if_any(words.sheets)};
    }
    if (commands.materials->parsed()) {
        return MaterialsArguments{
            words.material.empty() ? std::nullopt : std::optional(words.material),
            path_if_any(words.sheets),
            path_if_any(words.picture)};
    }
    if (commands.fit->parsed()) {
        return fit_arguments(words.fit);
    }
    if (commands.coupon->parsed()) {
        return coupon_arguments(commands, words);
    }
    if (commands.solve_for->parsed()) {
        return solve_for_arguments_of(words);
    }
    if (commands.templates->parsed()) {
        const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
        return n_threads ? templates_arguments(words.templates, words.out, words.sheets, *n_threads)
                         : tl::unexpected(n_threads.error());
    }
    if (commands.log->parsed()) {
        return log_arguments(words.log, words.out, words.sheets);
    }
    return tl::unexpected(wrong(
        "command",
        "nothing",
        "run, compare, check, materials, fit, coupon, solve-for, templates or log",
        "see \"flangewright --help\""
    ));
}

OptionWords words_of(const CLI::Option& option) {
    OptionWords words;
    for (const std::string& name : option.get_snames()) {
        words.names.push_back("-" + name);
    }
    for (const std::string& name : option.get_lnames()) {
        words.names.push_back("--" + name);
    }
    words.is_positional = words.names.empty();
    if (words.is_positional) {
        words.names.push_back(option.get_name());
    }
    words.meaning = option.get_description();
    words.takes_value = option.get_items_expected_max() > 0;
    words.takes_many = option.get_items_expected_max() > 1;
    return words;
}

CommandWords words_of(const CLI::App& app) {
    CommandWords words{app.get_name(), app.get_description(), app.get_footer(), {}, {}};
    for (const CLI::Option* option : app.get_options()) {
        words.options.push_back(words_of(*option));
    }
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        words.commands.push_back(words_of(*command));
    }
    return words;
}

} // namespace

CommandWords command_tree() {
    Commands commands;
    RawWords raw;
    declare(commands, raw);
    return words_of(commands.app);
}

OnlyText wrong(std::string key, std::string found, std::string allowed, std::string remedy) {
    return {
        bad_input,
        key_file::line_for(
            {"command line",
             0,
             0,
             std::move(key),
             std::move(found),
             std::move(allowed),
             std::move(remedy)}
        ) + "\n"};
}

std::optional<std::filesystem::path> path_if_any(const std::string& word) {
    return word.empty() ? std::nullopt : std::optional<std::filesystem::path>(word);
}

std::string program_version() {
    return FLANGEWRIGHT_VERSION;
}

Result<Arguments, OnlyText> read_arguments(const std::vector<std::string>& words) {
    Commands commands;
    RawWords raw;
    declare(commands, raw);
    std::vector<std::string> reversed(words.rbegin(), words.rend()); // as the library wants them
    try {
        commands.app.parse(reversed);
    } catch (const CLI::Success& wanted) { // help or version
        std::ostringstream text;
        commands.app.exit(wanted, text, text);
        return tl::unexpected(OnlyText{done, text.str()});
    } catch (const CLI::ParseError&) {
        return tl::unexpected(wrong(
            "option",
            words.empty() ? "nothing" : key_file::quoted_excerpt(words.back()),
            "each option with its value, and once",
            "see \"flangewright --help\""
        ));
    }
    return chosen(commands, raw);
}

} // namespace flangewright::command_line
