#include "io/coupon/bench_note.hpp"
#include "io/coupon/measured_file.hpp"
#include "tests/io/coupon/coupon_parts.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <regex>

namespace flangewright::coupon {
namespace {

using ::testing::HasSubstr;

TEST(BenchNote, TellsEachStepOfTheWorkAndTheCautions) {
    const CouponParts parts = coupon_parts();
    const std::string note = bench_note(parts.read.job, parts.flange, parts.marks);
    EXPECT_THAT(note, HasSubstr("Print template.svg at 100 %"));
    EXPECT_THAT(note, HasSubstr("AT THE FIRST CRACK"));
    EXPECT_THAT(note, HasSubstr("Never scribe"));
    EXPECT_THAT(note, HasSubstr("5 mm apart"));
    EXPECT_THAT(note, HasSubstr("not approved data"));
    EXPECT_THAT(note, HasSubstr("bears 16.0 % (uniform elongation, assumed:"));
    for (const FlangeStep& step : parts.flange.steps) {
        EXPECT_THAT(note, HasSubstr(fmt::format("{:.1f} %", 100 * step.stretch)));
    }
}

// Filled in, the table is what `coupon read` reads: each pair of it comes back.
TEST(BenchNote, TableIsReadOnceFilledIn) {
    const CouponParts parts = coupon_parts();
    const std::string table = empty_table(parts.marks);
    EXPECT_FALSE(measured_from(table, "m.csv").has_value());
    const std::string filled = std::regex_replace(table, std::regex(",,,,\n"), ",10,10.5,,no\n");
    const auto pairs = measured_from(filled, "m.csv");
    ASSERT_TRUE(pairs.has_value()) << key_file::line_for(pairs.error());
    const auto wanted = mark_pairs(parts.marks);
    ASSERT_EQ(pairs->size(), wanted.size());
    EXPECT_EQ(pairs->back().mark_to, wanted.back().second);
}

} // namespace
} // namespace flangewright::coupon
