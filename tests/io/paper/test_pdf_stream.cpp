#include "io/paper/pdf_stream.hpp"

#include <cairo.h>
#include <gmock/gmock.h>

namespace flangewright::paper {
namespace {

using testing::EndsWith;
using testing::Optional;
using testing::StartsWith;

TEST(PdfStream, IsAWholeFileWithItsPages) {
    PdfStream file(200, 100, "a \x07 bell in the title");
    for (int page = 0; page < 2; ++page) {
        const CairoPen pen = file.new_pen();
        cairo_move_to(pen.get(), 10, 10);
        cairo_line_to(pen.get(), 90, 90);
        cairo_stroke(pen.get());
        file.end_page(pen.get());
    }
    const std::optional<std::string> bytes = file.finish();
    EXPECT_THAT(bytes, Optional(StartsWith("%PDF-")));
    EXPECT_THAT(bytes, Optional(EndsWith("%%EOF\n")));
    EXPECT_THAT(bytes, Optional(testing::HasSubstr("/Count 2")));
}

TEST(PdfStream, RemembersAPensTrouble) {
    PdfStream file(200, 100, "trial");
    const CairoPen pen = file.new_pen();
    cairo_restore(pen.get()); // without a save before it
    file.end_page(pen.get());
    const CairoPen good = file.new_pen();
    file.end_page(good.get());
    EXPECT_EQ(file.finish(), std::nullopt);
    EXPECT_STRNE(file.trouble(), "");
    EXPECT_STRNE(file.trouble(), cairo_status_to_string(CAIRO_STATUS_SUCCESS));
}

TEST(PdfStream, ControlCharactersAreSpaces) {
    EXPECT_EQ(
        sound_text("a\tb\nc\x01"
                   "d"),
        "a b c d"
    );
    EXPECT_EQ(sound_text("25 \xc2\xb0"), "25 \xc2\xb0");
}

} // namespace
} // namespace flangewright::paper
