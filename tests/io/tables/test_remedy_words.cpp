#include "io/tables/remedy_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using findings::VerdictWord;
using process::RemedyKind;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using units::LengthUnit;

process::Remedies some_remedies() {
    process::Remedies remedies{0.95, 0.9, {}, 0};
    remedies.helpful = {
        {RemedyKind::less_depth, 20, 17, {}, 0.72, VerdictWord::holds},
        {RemedyKind::larger_nose, 3, 4.5, {}, 0.74, VerdictWord::holds},
        {RemedyKind::larger_plan_radius, 60, 75, {}, 0.76, VerdictWord::holds},
        {RemedyKind::better_edge, 0, 0, material::EdgeFinish::filed, 0.78, VerdictWord::holds},
        {RemedyKind::better_trimmed_edge,
         0,
         0,
         material::EdgeFinish::polished,
         0.79,
         VerdictWord::holds},
        {RemedyKind::anneal_first, 0, 1, {}, 0.82, VerdictWord::close},
        {RemedyKind::turned_grain, 0, 1.57, {}, 0.9, VerdictWord::close}};
    return remedies;
}

TEST(RemedyWords, SayTheChangeAndWhatItDoesInTheUsersUnit) {
    EXPECT_THAT(
        remedy_lines(some_remedies(), LengthUnit::millimetre),
        ElementsAre(
            "Flange about 3.00 mm less deep (its widest flat 17.00 mm past the bend line, trim "
            "allowance included, in place of 20.00 mm): 72 % of the limit used, holds.",
            "Nose radius 4.50 mm in place of 3.00 mm (bend tangent line kept: the wall moves): 74 "
            "% "
            "of the limit used, holds.",
            "Bend line with a radius in plan of 75.00 mm in place of 60.00 mm: 76 % of the limit "
            "used, holds.",
            "Edge filed before forming: 78 % of the limit used, holds.",
            "Trimmed edge polished: 79 % of the limit used, holds.",
            "Anneal before the return bend: 82 % of the limit used, close.",
            "Blank cut with the rolling direction turned by 90 deg: 90 % of the limit used, close."
        )
    );
    EXPECT_THAT(
        remedy_lines(some_remedies(), LengthUnit::inch)[1],
        HasSubstr("0.177 in (4.50 mm) in place of 0.118 in (3.00 mm)")
    );
}

TEST(RemedyWords, SayHowItWasFoundAndHowFarItGoes) {
    process::Remedies remedies = some_remedies();
    EXPECT_THAT(remedies_note(remedies), HasSubstr("the run's (95 %)"));
    EXPECT_THAT(remedies_note(remedies), HasSubstr("the slice's (90 %)"));
    EXPECT_THAT(remedies_note(remedies), HasSubstr("Another temper was not tried: no softer one"));
    EXPECT_THAT(remedies_note(remedies), HasSubstr("approved data decide"));
    EXPECT_THAT(remedies_note(remedies), Not(HasSubstr("left out")));
    EXPECT_THAT(remedies_note(remedies), Not(HasSubstr("None of the changes tried")));
    remedies.n_failed = 2;
    EXPECT_THAT(remedies_note(remedies), HasSubstr("2 changes found no balance of forces"));
    remedies.helpful.clear();
    EXPECT_THAT(remedies_note(remedies), HasSubstr("None of the changes tried was found to help"));
    EXPECT_THAT(remedies_note(remedies), Not(HasSubstr("finish is not stated")));
    remedies.knows_finish = false;
    EXPECT_THAT(
        remedies_note(remedies), HasSubstr("finish is not stated, so a better one was not")
    );
    remedies.share_of_model = 1.86;
    EXPECT_THAT(
        remedies_note(remedies),
        HasSubstr("uses 186 % of the limit where the part uses 95 %: the part's ends")
    );
}

// Source: tempers T are heat treated, tempers H work hardened (common practice, no source).
TEST(RemedyWords, SayWhereTheStrengthOfASofterTemperMustComeFrom) {
    process::Remedies remedies = some_remedies();
    remedies.n_tempers = 2;
    process::Remedy soft{RemedyKind::softer_temper, 0, 2, {}, 0.5, VerdictWord::holds};
    soft.sheet_now = "2024-T3";
    soft.sheet = "2024-O";
    process::Remedy unhardened = soft;
    unhardened.sheet_now = "5052-H32";
    unhardened.sheet = "5052-O";
    process::Remedy quenched = soft;
    quenched.sheet = "2024-W";
    remedies.helpful = {soft, unhardened, quenched};
    EXPECT_THAT(
        remedy_lines(remedies, LengthUnit::millimetre),
        ElementsAre(
            "Sheet of 2024-O in place of 2024-T3 (strength is restored only by heat treatment "
            "after "
            "forming, to approved data): 50 % of the limit used, holds.",
            "Sheet of 5052-O in place of 5052-H32 (its strength came from rolling, and no heat "
            "treatment brings it back): 50 % of the limit used, holds.",
            "Sheet of 2024-W in place of 2024-T3 (quenched and formed before it ages to its "
            "strength, "
            "to approved data): 50 % of the limit used, holds."
        )
    );
    EXPECT_THAT(remedies_note(remedies), HasSubstr("only those of the library were tried"));
    EXPECT_THAT(remedies_note(remedies), Not(HasSubstr("not tried")));
}

TEST(RemedyWords, NameEachKindForPrograms) {
    EXPECT_EQ(word_for(RemedyKind::softer_temper), "softer_temper");
    EXPECT_EQ(word_for(RemedyKind::less_depth), "less_depth");
    EXPECT_EQ(word_for(RemedyKind::turned_grain), "turned_grain");
}

} // namespace
} // namespace flangewright::tables
