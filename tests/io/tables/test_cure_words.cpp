#include "io/tables/cure_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using units::LengthUnit;

process::WebCure some_cure() {
    return {
        .zones = {{0, 60, -0.0131, -0.02}, {120, 180, 0.0064, 0.01}},
        .lift_before = 1.27,
        .lift_after = 0.127,
        .angle_change = -0.01,
        .edge_strain_added = 0.006};
}

TEST(CureWords, SayOfWhichStateTheySpeakUnlessItIsTheLast) {
    process::JobResult result;
    for (const job::StepKind kind :
         {job::StepKind::bend_down, job::StepKind::release, job::StepKind::trim}) {
        result.steps.emplace_back().kind = kind;
    }
    process::WebCure cure = some_cure();
    cure.step = 2;
    EXPECT_EQ(cure_occasion(cure, result), "");
    result.steps.emplace_back().kind = job::StepKind::heat_treat;
    EXPECT_EQ(cure_occasion(cure, result), "With the part trimmed to the net edge:");
    result.steps.back().kind = job::StepKind::return_bend;
    EXPECT_EQ(
        cure_occasion(cure, result),
        "Before the lip is bent, with the part trimmed to the net edge:"
    );
}

TEST(CureWords, SayWhatToDoWhereInTheUsersUnit) {
    EXPECT_THAT(
        cure_steps(some_cure(), LengthUnit::millimetre),
        ElementsAre(
            "Shrink the flange edge about 1.3 % between stations 0 and 60 mm.",
            "Stretch the flange edge about 0.64 % between stations 120 and 180 mm."
        )
    );
    EXPECT_EQ(
        cure_steps(some_cure(), LengthUnit::inch).back(),
        "Stretch the flange edge about 0.64 % between stations 4.72 and 7.09 in."
    );
}

TEST(CureWords, TellNeighboursWithTheSameWorkOnce) {
    process::WebCure cure;
    cure.zones = {
        {0, 20, 0.00301, 0}, {20, 40, 0.00299, 0}, {40, 60, -0.003, 0}, {80, 99, -0.003, 0}};
    EXPECT_THAT(
        cure_steps(cure, LengthUnit::millimetre),
        ElementsAre(
            "Stretch the flange edge about 0.30 % between stations 0 and 40 mm.",
            "Shrink the flange edge about 0.30 % between stations 40 and 60 mm.",
            "Shrink the flange edge about 0.30 % between stations 80 and 99 mm."
        )
    );
}

TEST(CureWords, SayWhatItDoes) {
    EXPECT_EQ(
        cure_outcome(some_cure(), LengthUnit::millimetre),
        "Tried on the computed part, it brings the web lift from 1.27 mm to 0.13 mm. The flange "
        "opens by 0.6 deg. The edge is stretched by up to 0.60 % more: weigh that against what is "
        "left of its limit."
    );
    EXPECT_THAT(cure_outcome(some_cure(), LengthUnit::inch), HasSubstr("from 0.050 in (1.27 mm)"));
    process::WebCure cure = some_cure();
    cure.angle_change = 0.01;
    EXPECT_THAT(cure_outcome(cure, LengthUnit::millimetre), HasSubstr("closes by 0.6 deg"));
    cure.angle_change = 1e-4;
    cure.edge_strain_added = -0.002;
    const std::string text = cure_outcome(cure, LengthUnit::millimetre);
    EXPECT_THAT(text, Not(HasSubstr("deg")));
    EXPECT_THAT(text, Not(HasSubstr("limit")));
}

TEST(CureWords, SayPlainlyWhenItDoesNotBringItFlat) {
    process::WebCure cure = some_cure();
    EXPECT_THAT(cure_outcome(cure, LengthUnit::millimetre), Not(HasSubstr("not bring it flat")));
    cure.lift_after = 0.5;
    EXPECT_THAT(
        cure_outcome(cure, LengthUnit::millimetre),
        HasSubstr("This does not bring it flat. Tried on the computed part, it brings the web lift "
                  "from 1.27 mm to 0.50 mm only.")
    );
    cure.zones.clear();
    EXPECT_TRUE(cure_steps(cure, LengthUnit::millimetre).empty());
    EXPECT_THAT(
        cure_outcome(cure, LengthUnit::millimetre), HasSubstr("no small stretch or shrink")
    );
}

TEST(CureWords, DeferToApprovedDataAndAskForSmallGoes) {
    EXPECT_THAT(cure_caution(), HasSubstr("approved data come first"));
    EXPECT_THAT(cure_caution(), HasSubstr("check on the block after each go"));
}

} // namespace
} // namespace flangewright::tables
