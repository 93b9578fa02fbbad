#include "io/sheet_page/html.hpp"

#include <gtest/gtest.h>

namespace flangewright::sheet_page {
namespace {

TEST(Html, SpellsMarkupOut) {
    EXPECT_EQ(
        safe("<script>alert(\"x\" & 'y')</script>"),
        "&lt;script&gt;alert(&quot;x&quot; &amp; &#39;y&#39;)&lt;/script&gt;"
    );
    EXPECT_EQ(safe("a\x01\nb"), "a  b");
    EXPECT_EQ(safe("20\xC2\xB0"), "20\xC2\xB0");
}

TEST(Html, WritesBytesAsTheStandardsExamples) {
    // RFC 4648, section 10, test vectors.
    EXPECT_EQ(base64(""), "");
    EXPECT_EQ(base64("f"), "Zg==");
    EXPECT_EQ(base64("fo"), "Zm8=");
    EXPECT_EQ(base64("foo"), "Zm9v");
    EXPECT_EQ(base64("foob"), "Zm9vYg==");
    EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
    EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
    EXPECT_EQ(base64("\xff\xfe\x80"), "//6A");
}

} // namespace
} // namespace flangewright::sheet_page
