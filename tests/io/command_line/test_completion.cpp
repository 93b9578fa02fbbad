// What bash makes of it: completion.bash beside this file.
#include "io/command_line/completion.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "tests/io/command_line/words_of_help.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::command_line {
namespace {

using testing::HasSubstr;

OptionWords option(const std::string& name, bool takes_value) {
    OptionWords words;
    words.names = {name};
    words.is_positional = name.front() != '-';
    words.takes_value = takes_value;
    return words;
}

CommandWords program() {
    CommandWords inner{"read", "", "", {option("MEASURED", true), option("--finish", true)}, {}};
    CommandWords outer{"coupon", "", "", {option("--help", false)}, {inner}};
    CommandWords many{"several", "", "", {option("CASE", true), option("--quick", false)}, {}};
    many.options.front().takes_many = true;
    return {"flangewright", "", "", {option("--help", false)}, {outer, many}};
}

TEST(Completion, OffersCommandsThenWhatTheyTake) {
    EXPECT_EQ(completions(program(), {""}), "coupon\nseveral\n");
    EXPECT_EQ(completions(program(), {}), "coupon\nseveral\n");
    EXPECT_EQ(completions(program(), {"coupon", ""}), "read\n");
    EXPECT_EQ(completions(program(), {"coupon", "read", ""}), ":files csv\n");
    EXPECT_EQ(completions(program(), {"coupon", "read", "a.csv", ""}), "");
    EXPECT_EQ(completions(program(), {"nonsense", ""}), "");
}

TEST(Completion, OffersOptionsWhereOneIsBegun) {
    EXPECT_EQ(completions(program(), {"-"}), "--help\n");
    EXPECT_EQ(completions(program(), {"several", "a.toml", "--"}), "--quick\n");
}

TEST(Completion, OffersTheValuesOfAnOption) {
    const std::string finishes = "snipped\nsawn\nfiled\npolished\n";
    EXPECT_EQ(completions(program(), {"coupon", "read", "--finish", ""}), finishes);
    EXPECT_EQ(completions(program(), {"coupon", "read", "--finish", "sawn", ""}), ":files csv\n");
    EXPECT_EQ(completions(program(), {"several", "--quick", ""}), ":files toml\n");
}

TEST(Completion, GoesOnWhereSeveralAreTaken) {
    EXPECT_EQ(completions(program(), {"several", "a.toml", "b.toml", ""}), ":files toml\n");
}

std::string in_lines(const std::vector<std::string>& words) {
    return fmt::format("{}\n", fmt::join(words, "\n"));
}

TEST(Completion, KnowsEveryCommandAndOptionOfTheHelp) {
    const CommandWords whole = command_tree();
    const std::vector<HelpWords> all = words_of_help();
    EXPECT_GE(all.size(), 8U);
    for (const HelpWords& command : all) {
        std::vector<std::string> words = command.path;
        words.emplace_back("--");
        EXPECT_EQ(completions(whole, words), in_lines(command.options));
        words.back() = "";
        if (!command.commands.empty()) {
            EXPECT_EQ(completions(whole, words), in_lines(command.commands));
        }
    }
}

TEST(Completion, OffersWhatTheProgramsOwnWordsTake) {
    const CommandWords whole = command_tree();
    EXPECT_EQ(completions(whole, {"run", "a.toml", ""}), "");
    EXPECT_EQ(completions(whole, {"run", "a.toml", "--threads", ""}), "");
    EXPECT_EQ(completions(whole, {"run", "--resume", ""}), ":files toml\n"); // takes no value
    EXPECT_EQ(completions(whole, {"fit", "a.csv", "--direction", ""}), "0\n45\n90\n");
    EXPECT_THAT(completions(whole, {"run", "a.toml", "--from", ""}), HasSubstr("return-bend\n"));
}

TEST(Completion, OffersEverySheet) {
    std::vector<std::string> names;
    for (const sheet_library::KnownSheet& sheet : sheet_library::known_sheets()) {
        names.push_back(sheet.material.name);
    }
    EXPECT_GT(names.size(), 10U);
    const CommandWords whole = command_tree();
    EXPECT_EQ(completions(whole, {"materials", ""}), in_lines(names));
    EXPECT_EQ(completions(whole, {"coupon", "read", "a.csv", "--sheet", ""}), in_lines(names));
}

} // namespace
} // namespace flangewright::command_line
