#include "io/command_line/command_tree.hpp"
#include "io/command_line/man_page.hpp"
#include "tests/io/command_line/words_of_help.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

namespace flangewright::command_line {
namespace {

using testing::HasSubstr;

std::string page() {
    return man_page(command_tree(), program_version());
}

// As man wants hyphens that are typed.
std::string typed(const std::string& text) {
    return std::regex_replace(text, std::regex("-"), "\\-");
}

// What the page says of one command.
std::string part_of(const std::string& text, const std::vector<std::string>& path) {
    const std::string head = path.empty()
        ? ".SH OPTIONS\n"
        : fmt::format(".SS \"flangewright {}\"\n", fmt::join(path, " "));
    const std::size_t begin = text.find(head);
    return begin == std::string::npos
        ? ""
        : text.substr(begin, text.find("\n.S", begin + head.size()) - begin);
}

TEST(ManPage, HasEveryCommandAndOptionOfTheHelp) {
    const std::string text = page();
    const std::vector<HelpWords> all = words_of_help();
    EXPECT_GE(all.size(), 8U);
    for (const HelpWords& command : all) {
        EXPECT_FALSE(command.options.empty());
        for (const std::string& option : command.options) {
            EXPECT_THAT(part_of(text, command.path), HasSubstr("\\fB" + typed(option) + "\\fR"))
                << fmt::format("{}", fmt::join(command.path, " "));
        }
    }
}

TEST(ManPage, SaysWhatEachIsFor) {
    const std::string text = page();
    EXPECT_THAT(
        text, HasSubstr("\\fB\\-\\-threads\\fR \\fIVALUE\\fR\nprocessor cores to use (all)")
    );
    EXPECT_THAT(text, HasSubstr("\\fB\\-\\-resume\\fR\ngo on where")); // takes no value
    EXPECT_THAT(text, HasSubstr("\\fBflangewright coupon read\\fR \\fIMEASURED\\fR"));
    EXPECT_THAT(text, HasSubstr("not approved data"));
    EXPECT_THAT(text, HasSubstr("Exit codes: 0 done, 2 wrong input"));
}

TEST(ManPage, TakesNoTextForAnOrder) {
    const CommandWords odd{"flangewright", ".TH is text\n'this, too\na \\ b", "", {}, {}};
    const std::string text = man_page(odd, "1");
    EXPECT_THAT(text, HasSubstr("\n\\&.TH is text\n\\&'this, too\na \\e b\n"));
}

} // namespace
} // namespace flangewright::command_line
