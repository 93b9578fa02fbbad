// What may be said on the command line: every command with its options, help and example.
#pragma once

#include "io/command_line/command_words.hpp"

#include <CLI/CLI.hpp>

#include <array>
#include <string>

namespace flangewright::command_line {

/// The words as the library leaves them; checked by us so that every message is our own.
struct RawWords {
    std::string run_case;
    std::string out;
    std::string threads;
    bool no_pictures = false;
    bool no_even_drive = false;
    bool no_remedies = false;
    bool resume = false;
    std::string from;
    std::string check_case;
    std::string material;
    std::string sheets;
    std::string picture;
    FitWords fit;
    CompareWords compare;
    std::string coupon_case;
    CouponReadWords coupon_read;
    SolveForWords solve_for;
    TemplatesWords templates;
    LogWords log;
};

/// The commands; the library keeps what they point to.
struct Commands {
    CLI::App app{
        "Will a hand-formed flange split, how far does it spring back, does the web stay flat?\n"
        "A forming estimate, not approved data.",
        "flangewright"};
    CLI::App* run = nullptr;
    CLI::App* compare = nullptr;
    CLI::App* check = nullptr;
    CLI::App* materials = nullptr;
    CLI::App* fit = nullptr;
    CLI::App* coupon = nullptr;
    CLI::App* coupon_write = nullptr;
    CLI::App* coupon_read = nullptr;
    CLI::App* solve_for = nullptr;
    CLI::App* templates = nullptr;
    CLI::App* log = nullptr;

    [[nodiscard]] std::array<CLI::App*, 11> all() const {
        return {
            run,
            compare,
            check,
            materials,
            fit,
            coupon,
            coupon_write,
            coupon_read,
            solve_for,
            templates,
            log};
    }
};

/// Declares all commands; what the library reads goes into `words`. Fails: never.
void declare(Commands& commands, RawWords& words);

} // namespace flangewright::command_line
