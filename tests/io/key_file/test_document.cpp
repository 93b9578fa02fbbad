#include "io/key_file/document.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

namespace flangewright::key_file {
namespace {

TEST(Document, KeepsTheFilesOrderAndPlaces) {
    const auto document = document_from("b = 1\na = \"x\"\n[c]\nd = [true, 2.5]\n", "f");
    ASSERT_TRUE(document.has_value());
    const Node& root = document->root;
    ASSERT_EQ(root.members.size(), 3U);
    EXPECT_EQ(root.members[0].key, "b");
    EXPECT_EQ(root.members[1].value.text, "x");
    EXPECT_EQ(root.members[1].place.line, 2);
    const Node& list = root.member("c")->value.member("d")->value;
    EXPECT_EQ(list.place.line, 4);
    EXPECT_EQ(list.items[0].kind, Kind::truth);
    EXPECT_DOUBLE_EQ(list.items[1].number, 2.5);
    EXPECT_EQ(root.member("z"), nullptr);
}

TEST(Document, TellsAProblemOnOneLineWhateverTheTextHolds) {
    const auto document = document_from("a = \"\x1b[31m\x07\nb", "f");
    ASSERT_FALSE(document.has_value());
    for (const char c : line_for(document.error())) {
        EXPECT_GE(static_cast<unsigned char>(c), 0x20);
    }
}

// Damaged copies of a good file: any answer will do, but an answer it must be.
TEST(Document, SurvivesDamagedText) {
    const std::string good = "title = \"x\"\n[a.b]\nc = [1, { d = \"1/32 in\" }]\ne = 2024-01-01\n";
    std::mt19937 random(20240501); // fixed, so that a failure can be seen again
    for (int i = 0; i < 5000; ++i) {
        std::string text = good;
        for (int n = 0; n < 3; ++n) {
            text[random() % text.size()] = static_cast<char>(random() % 256);
        }
        const auto document = document_from(text, "f");
        if (!document) {
            EXPECT_FALSE(document.error().allowed.empty());
            EXPECT_FALSE(document.error().remedy.empty());
            EXPECT_GE(document.error().line, 1);
        }
    }
}

TEST(Document, RefusesBracketsNestedWithoutEnd) {
    EXPECT_FALSE(document_from("a = " + std::string(100'000, '['), "f").has_value());
}

} // namespace
} // namespace flangewright::key_file
