#include "io/command_line/command_line.hpp"

#include "io/build_log/bias_file.hpp"
#include "io/command_line/arguments.hpp"
#include "io/command_line/check_command.hpp"
#include "io/command_line/compare_command.hpp"
#include "io/command_line/completion.hpp"
#include "io/command_line/coupon_command.hpp"
#include "io/command_line/fit_command.hpp"
#include "io/command_line/log_command.hpp"
#include "io/command_line/man_page.hpp"
#include "io/command_line/materials_command.hpp"
#include "io/command_line/own_sheets.hpp"
#include "io/command_line/run_command.hpp"
#include "io/command_line/solve_for_command.hpp"
#include "io/command_line/templates_command.hpp"
#include "solver/process/slice_share.hpp"

#include <unistd.h>

#include <algorithm>
#include <iostream>

namespace flangewright::command_line {

namespace {

// One answer for each command.
struct Answer {
    Terminal& terminal;

    int operator()(const RunArguments& arguments) const {
        return run_case(arguments, terminal, {process::run_job, run_folder::write_outputs});
    }
    int operator()(const CompareArguments& arguments) const {
        return compare_variants(arguments, terminal, {process::run_job, run_folder::write_outputs});
    }
    int operator()(const CheckArguments& arguments) const {
        return check_case(arguments, terminal);
    }
    int operator()(const MaterialsArguments& arguments) const {
        return show_materials(arguments, terminal);
    }
    int operator()(const FitArguments& arguments) const { return fit_test(arguments, terminal); }
    int operator()(const CouponWriteArguments& arguments) const {
        return write_coupon(arguments, terminal);
    }
    int operator()(const CouponReadArguments& arguments) const {
        return read_coupon(arguments, date_today(), terminal);
    }
    int operator()(const SolveForArguments& arguments) const {
        return solve_for(
            arguments,
            terminal,
            {{process::run_job, run_folder::write_outputs}, process::angle_and_shares}
        );
    }
    int operator()(const TemplatesArguments& arguments) const {
        return write_templates(arguments, terminal, process::solved_former);
    }
    int operator()(const LogArguments& arguments) const {
        return log_part(arguments, {date_today(), build_log::users_bias_file()}, terminal);
    }
};

// What packages and shells ask for, and no user.
std::optional<std::string> text_for_tools(const std::vector<std::string>& words) {
    const std::string request = words.empty() ? "" : words.front();
    if (request == completion_request) {
        return completions(command_tree(), {words.begin() + 1, words.end()});
    }
    return request == man_page_request ? std::optional(man_page(command_tree(), program_version()))
                                       : std::nullopt;
}

} // namespace

int run(int argc, char** argv) {
    Terminal terminal{std::cout, std::cerr, isatty(STDERR_FILENO) == 1};
    const std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
    if (const std::optional<std::string> text = text_for_tools(words)) {
        std::cout << *text;
        return done;
    }
    const Result<Arguments, OnlyText> arguments = read_arguments(words);
    if (!arguments) {
        (arguments.error().exit_code == done ? std::cout : std::cerr) << arguments.error().text;
        return arguments.error().exit_code;
    }
    const int sheets_code = std::visit(
        [&terminal](const auto& chosen) {
            if constexpr (requires { chosen.sheets; }) {
                return use_own_sheets(chosen.sheets, terminal);
            } else {
                return static_cast<int>(done); // a test is fitted without knowing any sheet
            }
        },
        *arguments
    );
    if (sheets_code != done) {
        return sheets_code;
    }
    const int exit_code = std::visit(Answer{terminal}, *arguments);
    std::cout.flush();
    return exit_code == done && !std::cout.good() ? static_cast<int>(outside_trouble) : exit_code;
}

} // namespace flangewright::command_line
