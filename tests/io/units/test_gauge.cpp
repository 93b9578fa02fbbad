#include "io/units/gauge.hpp"

#include <gtest/gtest.h>

namespace flangewright::units {
namespace {

// Source: glossary of the trade, from memory, to be confirmed: 20 gauge aluminium is 0.032 in.
TEST(Gauge, IsReadForAluminiumSheet) {
    EXPECT_TRUE(is_gauge("20 gauge"));
    EXPECT_TRUE(is_gauge("20 ga"));
    EXPECT_FALSE(is_gauge("20"));
    EXPECT_FALSE(is_gauge("20 mm"));
    EXPECT_DOUBLE_EQ(*read_gauge("20 gauge"), 0.8128);
    EXPECT_FALSE(read_gauge("21 gauge").has_value());
    EXPECT_FALSE(read_gauge("gauge").has_value());
}

} // namespace
} // namespace flangewright::units
