#include "io/key_file/changed_value.hpp"
#include "io/key_file/document.hpp"

#include <gmock/gmock.h>

namespace flangewright::key_file {
namespace {

using ::testing::HasSubstr;

const std::string text = R"(title = "Flansch, größer"   # ä
[block]   # of steel
nose_radius = "3/32 in" # measured
  wall_angle = [[0, 80], # first
    ["62 mm", 90]]   # station, degrees
[blank]
flange_depth=12.5
web = { width = 30, note = "a # b" } # as cut
)";

std::string
changed(const KeyName& name, const std::string& written, const std::string& from = text) {
    const auto result = with_value(from, "a.toml", name, written);
    EXPECT_TRUE(result.has_value()) << (result ? "" : line_for(result.error()));
    return result.value_or("");
}

/// The text with one piece of it replaced by hand.
std::string by_hand(const std::string& old, const std::string& now) {
    std::string result = text;
    return result.replace(result.find(old), old.size(), now);
}

TEST(ChangedValue, ReplacesTheValueAloneAndKeepsComments) {
    EXPECT_EQ(changed({"block", "nose_radius"}, "2.4"), by_hand("\"3/32 in\"", "2.4"));
    EXPECT_EQ(changed({"blank", "flange_depth"}, "17"), by_hand("12.5", "17"));
}

TEST(ChangedValue, ReplacesATableOfSeveralLines) {
    EXPECT_EQ(
        changed({"block", "wall_angle"}, "[[0, 82.5]]"),
        by_hand("[[0, 80], # first\n    [\"62 mm\", 90]]", "[[0, 82.5]]")
    );
}

TEST(ChangedValue, CountsCharactersNotBytes) {
    const std::string one_line = "[a]\nb = { name = \"ä ö ü\", c = 1, d = 2 }\n";
    const std::string on_root = "a = { name = \"äöü\", c = 1 } # é\n";
    EXPECT_EQ(changed({"a", "c"}, "5", on_root), "a = { name = \"äöü\", c = 5 } # é\n");
    EXPECT_EQ(changed({"a", "b"}, "7", one_line), "[a]\nb = 7\n");
}

TEST(ChangedValue, PutsAMissingKeyBelowItsSection) {
    EXPECT_EQ(
        changed({"block", "friction"}, "0.1"),
        by_hand("[block]   # of steel\n", "[block]   # of steel\nfriction = 0.1\n")
    );
    EXPECT_EQ(changed({"a", "b"}, "1", "[a]"), "[a]\nb = 1\n");
}

TEST(ChangedValue, IsRefusedWhereTheSectionHasAnotherForm) {
    const auto result =
        with_value("block = { nose_radius = 3 }\n", "a.toml", {"block", "wall"}, "1");
    ASSERT_FALSE(result.has_value());
    EXPECT_THAT(line_for(result.error()), HasSubstr("block.wall"));
    EXPECT_FALSE(with_value("a = 1\n", "a.toml", {"block", "wall"}, "1").has_value());
    EXPECT_FALSE(with_value("a = [\n", "a.toml", {"a", "b"}, "1").has_value());
}

TEST(ChangedValue, IsRefusedWhenMoreWouldChange) {
    EXPECT_FALSE(with_value(text, "a.toml", {"block", "nose_radius"}, "2\nx = 3").has_value());
    EXPECT_FALSE(with_value(text, "a.toml", {"block", "nose_radius"}, "[2").has_value());
}

} // namespace
} // namespace flangewright::key_file
