#include "io/vtk/picture_text.hpp"

#include <gtest/gtest.h>

namespace flangewright::vtk {
namespace {

TEST(PictureText, KeepsPlainAndAccentedWords) {
    EXPECT_EQ(
        printable("Rib 20\xC2\xB0, caf\xC3\xA9 \xE2\x82\xAC"),
        "Rib 20\xC2\xB0, caf\xC3\xA9 \xE2\x82\xAC"
    );
}

TEST(PictureText, PutsAMarkForBytesThatAreNoCharacter) {
    EXPECT_EQ(printable("a\xff\xfe z"), "a?? z");
    EXPECT_EQ(printable("cut off \xE2\x82"), "cut off ??");
    EXPECT_EQ(printable("\xC3("), "?(");
}

TEST(PictureText, HasNoControlCharacters) {
    EXPECT_EQ(printable("a\nb\tc\x7f"), "a b c ");
}

TEST(PictureText, IsShortenedByCharactersNotBytes) {
    EXPECT_EQ(printable("\xC3\xA9\xC3\xA9\xC3\xA9", 2), "\xC3\xA9\xC3\xA9...");
    EXPECT_EQ(printable("\xC3\xA9\xC3\xA9", 2), "\xC3\xA9\xC3\xA9");
}

} // namespace
} // namespace flangewright::vtk
