#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/text_file.hpp"

#include <algorithm>

namespace flangewright::command_line {

std::optional<OnlyText> label_problem(const std::string& option, const std::string& word) {
    constexpr std::size_t longest = 60; // bytes: it stands in one line of a page
    const bool is_text = !key_file::encoding_problem(word, "").has_value();
    const bool is_plain =
        std::ranges::none_of(word, [](unsigned char c) { return c < 0x20 || c == 0x7F; });
    if (word.empty()
        || (is_text && is_plain && word.size() <= longest
            && word.find_first_not_of(' ') != std::string::npos)) {
        return std::nullopt;
    }
    return wrong(
        option,
        key_file::quoted_excerpt(word),
        "1 to 60 letters on one line",
        option == "--lot" ? "write the number on the sheet or its certificate"
                          : "write a short name"
    );
}

Result<Arguments, OnlyText>
log_arguments(const LogWords& words, const std::string& out, const std::string& sheets) {
    if (words.case_file.empty()) {
        return tl::unexpected(
            wrong("CASE", "nothing", "the path of a case file", "write flangewright log CASE ...")
        );
    }
    if (words.measured.empty() == words.template_file.empty()) {
        return tl::unexpected(wrong(
            "--measured",
            words.measured.empty() ? "neither --measured nor --template"
                                   : "both --measured and --template",
            "one of them, with the path of a table",
            "write --template FILE first, fill the table in, then --measured FILE"
        ));
    }
    for (const auto& [option, word] :
         {std::pair("--lot", words.lot), std::pair("--part", words.part)}) {
        if (auto problem = label_problem(option, word)) {
            return tl::unexpected(*problem);
        }
    }
    LogArguments log;
    log.case_file = words.case_file;
    log.measured_file = path_if_any(words.measured);
    log.template_file = path_if_any(words.template_file);
    log.out = path_if_any(out);
    log.lot = words.lot;
    log.part = words.part;
    log.stores_limit = words.stores_limit;
    log.sheets = path_if_any(sheets);
    return log;
}

} // namespace flangewright::command_line
