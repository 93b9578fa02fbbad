#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

namespace flangewright::command_line {

namespace {

constexpr int most_threads = 256;

const std::array<std::string, 4> what_words{
    "undercut", "flange-depth", "plan-radius", "nose-radius"};
constexpr std::array whats{
    SolveFor::undercut, SolveFor::flange_depth, SolveFor::plan_radius, SolveFor::nose_radius};

} // namespace

Result<int, OnlyText> n_threads_of(const std::string& word) {
    if (word.empty()) {
        return 0;
    }
    int n = 0;
    const char* end = word.data() + word.size();
    const auto outcome = std::from_chars(word.data(), end, n);
    if (outcome.ec != std::errc() || outcome.ptr != end || n < 1 || n > most_threads) {
        return tl::unexpected(wrong(
            "--threads",
            key_file::quoted_excerpt(word),
            fmt::format("1 to {}", most_threads),
            "write a whole number, or leave it out to use all cores"
        ));
    }
    return n;
}

Result<SolveForArguments, OnlyText> solve_for_arguments(const SolveForWords& words) {
    const auto found = std::ranges::find(what_words, words.what);
    if (found == what_words.end()) {
        const auto nearest = key_file::nearest_word(words.what, what_words);
        return tl::unexpected(wrong(
            "WHAT",
            words.what.empty() ? "nothing" : key_file::quoted_excerpt(words.what),
            key_file::listed(what_words),
            nearest ? "write " + *nearest : "write flangewright solve-for WHAT CASE"
        ));
    }
    if (words.case_file.empty()) {
        return tl::unexpected(wrong(
            "CASE",
            "nothing",
            "the path of a case file",
            "write flangewright solve-for " + words.what + " CASE"
        ));
    }
    SolveForArguments arguments;
    arguments.what = whats.at(static_cast<std::size_t>(found - what_words.begin()));
    arguments.case_file = words.case_file;
    arguments.from = words.from;
    arguments.to = words.to;
    arguments.tolerance = words.tolerance;
    arguments.limit = words.limit;
    arguments.angle = words.angle;
    arguments.one_value = words.one_value;
    return arguments;
}

} // namespace flangewright::command_line
