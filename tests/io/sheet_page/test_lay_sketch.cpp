#include "io/sheet_page/lay_sketch.hpp"

#include <gmock/gmock.h>

#include <numbers>

namespace flangewright::sheet_page {
namespace {

using ::testing::HasSubstr;

// Paper's y grows downward; the flange lies above the line.
TEST(LaySketch, TurnsTheArrowTowardTheFlange) {
    EXPECT_THAT(lay_sketch(0), HasSubstr("x1=\"38.0\" y1=\"30.0\" x2=\"82.0\" y2=\"30.0\""));
    EXPECT_THAT(
        lay_sketch(0.5 * std::numbers::pi),
        HasSubstr("x1=\"60.0\" y1=\"52.0\" x2=\"60.0\" y2=\"8.0\"")
    );
}

} // namespace
} // namespace flangewright::sheet_page
