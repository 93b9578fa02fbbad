#include "io/tables/web_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using testing::HasSubstr;
using units::LengthUnit;

process::JobResult part_that_lifts(double lift, double bar) {
    process::JobResult result;
    result.steps.emplace_back().kind = job::StepKind::release;
    result.steps.back().findings.web_lift = lift;
    result.mesh_error.emplace().web_lift = bar;
    return result;
}

TEST(WebWords, WeighTheLiftWithItsBarAgainstAFeeler) {
    EXPECT_EQ(web_seat_of(part_that_lifts(0.1, 0.1)), WebSeat::flat);
    EXPECT_EQ(web_seat_of(part_that_lifts(0.04, 0.98)), WebSeat::unsure);
    EXPECT_EQ(web_seat_of(part_that_lifts(0.3, 0.1)), WebSeat::unsure);
    EXPECT_EQ(web_seat_of(part_that_lifts(0.9, 0.1)), WebSeat::lifts);
    EXPECT_EQ(web_seat_of(part_that_lifts(0.3, 0)), WebSeat::unsure) << "the model's own third";
    EXPECT_EQ(web_seat_of(part_that_lifts(0.4, 0)), WebSeat::lifts);
    EXPECT_EQ(word_for(WebSeat::unsure), "can't tell");
}

TEST(WebWords, CountTheScatterIn) {
    process::JobResult result = part_that_lifts(0.1, 0.1);
    result.scatter.emplace().total.web_lift = 0.2;
    EXPECT_EQ(web_seat_of(result), WebSeat::unsure);
}

TEST(WebWords, SayNothingWithoutABar) {
    process::JobResult result = part_that_lifts(0.1, 0);
    result.mesh_error->web_lift.reset(); // on the block
    EXPECT_EQ(web_seat_of(result), std::nullopt);
    EXPECT_EQ(web_sentence(result, LengthUnit::millimetre), "");
    result.mesh_error.reset();
    EXPECT_EQ(web_seat_of(result), std::nullopt);
}

TEST(WebWords, GiveLiftAndBarInTheUsersUnit) {
    EXPECT_EQ(
        web_sentence(part_that_lifts(0.9, 0.1), LengthUnit::millimetre),
        "The web does not sit flat: it lifts by 0.90 mm, give or take 0.33 mm (by mesh, and a "
        "third of the lift for the model): more than a feeler of 0.25 mm."
    );
    EXPECT_THAT(
        web_sentence(part_that_lifts(0.1, 0.1), LengthUnit::inch),
        HasSubstr("sits flat: it lifts by 0.004 in (0.10 mm), give or take 0.004 in (0.11 mm)")
    );
}

TEST(WebWords, PointToAFinerMeshWhereThatHelps) {
    const auto sentence = [](double lift, double bar) {
        return web_sentence(part_that_lifts(lift, bar), LengthUnit::millimetre);
    };
    EXPECT_THAT(sentence(0.04, 0.98), HasSubstr("can't be told: it lifts by 0.04 mm"));
    EXPECT_THAT(sentence(0.04, 0.98), HasSubstr("A finer mesh"));
    EXPECT_THAT(sentence(0.3, 0.01), HasSubstr("may go under it or not. The block shows it."));
}

TEST(WebWords, CautionACureOfALiftThatMayNotBe) {
    process::JobResult result = part_that_lifts(0.9, 0.1);
    EXPECT_EQ(cure_doubt(result), "");
    result.web_cure.emplace().lift_before = 0.3;
    EXPECT_THAT(cure_doubt(result), HasSubstr("before the part on the block shows that it lifts"));
    result.web_cure->lift_before = 0.9;
    EXPECT_EQ(cure_doubt(result), "");
}

} // namespace
} // namespace flangewright::tables
