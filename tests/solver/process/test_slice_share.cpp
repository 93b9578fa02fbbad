// What a change on the slice says of the whole part's verdict.
#include "solver/findings/verdict.hpp"
#include "solver/process/run_job.hpp"
#include "solver/process/slice_share.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using findings::VerdictWord;
using material::DataGrade;

constexpr double close_share = 0.8;

findings::LimitUse limit(std::optional<double> share, DataGrade grade) {
    findings::LimitUse use;
    use.share = share;
    use.grade = grade;
    return use;
}

std::vector<double> answer(double share, bool is_needed, DataGrade grade) {
    return {share, is_needed ? 1.0 : 0.0, static_cast<double>(grade)};
}

findings::Verdict verdict_of(std::vector<findings::LimitUse> limits) {
    findings::Verdict verdict;
    verdict.limits = std::move(limits);
    return verdict;
}

TEST(SliceShare, TakesTheRunsShareByTheSlicesRatio) {
    const findings::Verdict as_run = verdict_of({limit(0.9, DataGrade::coupon)});
    const ShareWord with = expected_with(
        as_run,
        close_share,
        answer(0.6, true, DataGrade::coupon),
        answer(0.4, true, DataGrade::coupon)
    );
    EXPECT_NEAR(with.share, 0.6, 1e-12);
    EXPECT_EQ(with.word, VerdictWord::holds);
}

TEST(SliceShare, GivesTheVerdictsWords) {
    const auto word_at = [](double share, bool is_needed, DataGrade grade) {
        const findings::Verdict as_run = verdict_of({limit(1, grade)});
        return expected_with(
                   as_run, close_share, answer(1, true, grade), answer(share, is_needed, grade)
        )
            .word;
    };
    EXPECT_EQ(word_at(1.01, true, DataGrade::coupon), VerdictWord::splits);
    EXPECT_EQ(word_at(0.81, true, DataGrade::coupon), VerdictWord::close);
    EXPECT_EQ(word_at(0.79, true, DataGrade::coupon), VerdictWord::holds);
    EXPECT_EQ(word_at(0.51, true, DataGrade::typical), VerdictWord::close); // doubtful
    EXPECT_EQ(word_at(0.49, true, DataGrade::typical), VerdictWord::holds);
    EXPECT_EQ(word_at(0.9, false, DataGrade::coupon), VerdictWord::holds);
    findings::LimitUse thickness = limit(1, DataGrade::published);
    thickness.place = findings::thickness_place;
    const std::vector<double> as_is = answer(1, true, DataGrade::published);
    EXPECT_EQ(
        expected_with(
            verdict_of({thickness}), close_share, as_is, answer(1.01, true, DataGrade::published)
        )
            .word,
        VerdictWord::too_thin
    );
}

TEST(SliceShare, ALimitThatTheSliceLacksStaysAsRun) {
    const findings::Verdict as_run =
        verdict_of({limit(0.9, DataGrade::coupon), limit(0.95, DataGrade::coupon)});
    std::vector<double> as_is = answer(0.6, true, DataGrade::coupon);
    const std::vector<double> none = answer(-1, false, DataGrade::unknown);
    as_is.insert(as_is.end(), none.begin(), none.end());
    std::vector<double> changed = answer(0.1, true, DataGrade::coupon);
    changed.insert(changed.end(), none.begin(), none.end());
    EXPECT_EQ(expected_with(as_run, close_share, as_is, changed).share, 0.95);
    EXPECT_EQ(share_in(as_is, 0), 0.6);
    EXPECT_EQ(share_in(as_is, 1), 0);
}

TEST(SliceShare, IsBetterByAWordOrAPoint) {
    const ShareWord now{VerdictWord::close, 0.9};
    EXPECT_TRUE((ShareWord{VerdictWord::holds, 0.9}.is_better_than(now)));
    EXPECT_TRUE((ShareWord{VerdictWord::close, 0.88}.is_better_than(now)));
    EXPECT_FALSE((ShareWord{VerdictWord::close, 0.895}.is_better_than(now)));
    EXPECT_FALSE((ShareWord{VerdictWord::splits, 0.5}.is_better_than(now)));
}

TEST(SliceShare, AnswersWhatTheVerdictOfAQuickRunSays) {
    job::Job job = support::small_flange(
        outline::BendLine::arc(60, 0.03, outline::Curve::concave),
        job::EndKind::continues,
        job::EndKind::continues
    );
    job.sheet.material.uniform_elongation = {0.2, DataGrade::published, "made up"};
    job.accuracy = job::Accuracy::quick;
    const auto run = run_job(job, {.n_threads = 1, .measure_bare_refactor = false}, {});
    job.accuracy = job::Accuracy::normal; // the slice is quick all the same
    const Numbers numbers = shares_on_slice(job, run->verdict);
    ASSERT_TRUE(numbers.has_value());
    ASSERT_EQ(numbers->size(), 9U); // edge, bend, sheet between them
    EXPECT_NEAR(numbers->at(0), *run->verdict.limits[0].share, 1e-9);
    EXPECT_EQ(numbers->at(1), 1);
    EXPECT_EQ(numbers->at(2), static_cast<double>(DataGrade::published));
    EXPECT_EQ(numbers->at(3), -1); // no bend table
}

} // namespace
} // namespace flangewright::process
