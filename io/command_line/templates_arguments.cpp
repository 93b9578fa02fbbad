#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"

#include <algorithm>
#include <cctype>

namespace flangewright::command_line {

namespace {

std::string lower_case(std::string word) {
    std::ranges::transform(word, word.begin(), [](unsigned char c) {
        return static_cast<char>(std::tolower(c));
    });
    return word;
}

} // namespace

Result<Arguments, OnlyText> templates_arguments(
    const TemplatesWords& words, const std::string& out, const std::string& sheets, int n_threads
) {
    if (words.case_file.empty()) {
        return tl::unexpected(wrong(
            "CASE",
            "nothing",
            "the path of a case file",
            "write flangewright templates CASE --out FOLDER"
        ));
    }
    if (out.empty()) {
        return tl::unexpected(wrong(
            "--out",
            "nothing",
            "the folder to write into",
            "write flangewright templates CASE --out FOLDER"
        ));
    }
    const std::string paper = lower_case(words.paper);
    if (!paper.empty() && paper != "a4" && paper != "letter") {
        return tl::unexpected(wrong(
            "--paper",
            key_file::quoted_excerpt(words.paper),
            "A4 or letter",
            "write the size that lies in the printer"
        ));
    }
    if (words.is_by_hand && !words.within.empty()) {
        return tl::unexpected(wrong(
            "--within",
            key_file::quoted_excerpt(words.within),
            "nothing beside --by-hand, which forms no part to measure",
            "leave one of the two out"
        ));
    }
    TemplatesArguments templates;
    templates.case_file = words.case_file;
    templates.out = out;
    templates.depth = words.depth;
    templates.within = words.within;
    templates.is_letter = paper == "letter";
    templates.is_by_hand = words.is_by_hand;
    templates.n_threads = n_threads;
    templates.sheets = path_if_any(sheets);
    return templates;
}

} // namespace flangewright::command_line
