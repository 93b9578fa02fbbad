// What the readers of single commands share: the words as written, and how a wrong one is told.
#pragma once

#include "io/command_line/arguments.hpp"

namespace flangewright::command_line {

/// One line for a wrong word, exit code 2.
[[nodiscard]] OnlyText
wrong(std::string key, std::string found, std::string allowed, std::string remedy);

/// Nothing for an empty word.
[[nodiscard]] std::optional<std::filesystem::path> path_if_any(const std::string& word);

/// The words of flangewright fit.
struct FitWords {
    std::string test;
    std::string gauge_length;
    std::string width;
    std::string thickness;
    std::string modulus;
    std::string poisson;
    std::string direction;
    std::string name;
    std::string out;
    std::string picture;
};

/// The words of flangewright compare, beside those it shares with run.
struct CompareWords {
    std::vector<std::string> cases;
    std::vector<std::string> vary;
    bool list_jobs = false;
    bool collect = false;
};

/// The words of flangewright coupon read.
struct CouponReadWords {
    std::vector<std::string> measured;
    std::string sheet;
    std::string lot;
    std::string finish;
    std::string thickness;
};

/// The words of flangewright solve-for.
struct SolveForWords {
    std::string what;
    std::string case_file;
    std::string from;
    std::string to;
    std::string tolerance;
    std::string limit;
    std::string angle;
    bool one_value = false;
};

/// A number of processor cores; 0 for an empty word. Fails: with what is allowed.
[[nodiscard]] Result<int, OnlyText> n_threads_of(const std::string& word);

/// Turns them into what is asked; the options that other commands have, too, are left out. Fails:
/// with the first word that is wrong.
[[nodiscard]] Result<SolveForArguments, OnlyText> solve_for_arguments(const SolveForWords& words);

/// The words of flangewright templates.
struct TemplatesWords {
    std::string case_file;
    std::string depth;
    std::string within;
    std::string paper;
    bool is_by_hand = false;
};

/// Turns them into what is asked, but for lengths, which are in the case's unit. Fails: with the
/// first word that is wrong.
[[nodiscard]] Result<Arguments, OnlyText> templates_arguments(
    const TemplatesWords& words, const std::string& out, const std::string& sheets, int n_threads
);

/// The words of flangewright log.
struct LogWords {
    std::string case_file;
    std::string measured;
    std::string template_file;
    std::string lot;
    std::string part;
    bool stores_limit = false;
};

/// Nothing for 1 to 60 bytes of text on one line, or for none; else what is wrong.
[[nodiscard]] std::optional<OnlyText>
label_problem(const std::string& option, const std::string& word);

/// Turns them into what is asked. Fails: with the first word that is wrong.
[[nodiscard]] Result<Arguments, OnlyText>
log_arguments(const LogWords& words, const std::string& out, const std::string& sheets);

/// Turns them into what is asked. Fails: with the first word that is wrong.
[[nodiscard]] Result<Arguments, OnlyText> coupon_read_arguments(
    const CouponReadWords& words, const std::string& out, const std::string& sheets
);

/// Cases, variations and what to do with them; the rest is filled in by the caller. Fails: with the
/// first word that is wrong.
[[nodiscard]] Result<CompareArguments, OnlyText> compare_arguments(const CompareWords& words);

/// Turns them into sizes, MPa and paths. Fails: with the first word that is wrong.
[[nodiscard]] Result<Arguments, OnlyText> fit_arguments(const FitWords& words);

} // namespace flangewright::command_line
