#include "solver/process/slice_share.hpp"

#include "solver/findings/verdict.hpp"
#include "solver/process/run_job.hpp"

#include <algorithm>
#include <limits>

namespace flangewright::process {

namespace {

using findings::LimitUse;
using findings::VerdictWord;

constexpr std::size_t n_per_limit = 3;

using Answer = LimitAnswer;

Answer answer_at(const std::vector<double>& numbers, std::size_t limit) {
    return {
        numbers.at(n_per_limit * limit),
        numbers.at(n_per_limit * limit + 1) > 0,
        static_cast<material::DataGrade>(static_cast<int>(numbers.at(n_per_limit * limit + 2)))};
}

// As the verdict judges one limit.
VerdictWord word_of(const Answer& answer, double close_share) {
    LimitUse use;
    use.place = answer.place;
    use.is_needed = answer.is_needed;
    use.grade = answer.grade;
    if (answer.share >= 0) {
        use.share = answer.share;
    }
    return findings::word_of_limit(use, close_share);
}

Answer as_answer(const LimitUse& use) {
    return {use.share.value_or(-1), use.is_needed, use.grade, use.place};
}

Answer scaled(const LimitUse& as_run, const Answer& as_is, const Answer& changed) {
    const bool is_reached = as_is.is_needed && as_is.share > 0 && changed.share >= 0;
    if (!as_run.is_needed || !as_run.share) {
        return changed.share < 0 ? as_answer(as_run) : changed;
    }
    if (!is_reached) {
        return as_answer(as_run);
    }
    return {*as_run.share * changed.share / as_is.share, changed.is_needed, changed.grade};
}

} // namespace

bool ShareWord::is_better_than(const ShareWord& other) const {
    constexpr double a_point = 0.01;
    return rank_of(word) < rank_of(other.word)
        || (word == other.word && share <= other.share - a_point);
}

ShareWord word_and_share(const findings::Verdict& verdict) {
    return {verdict.word, verdict.share_used.value_or(0)};
}

std::optional<double> loose_angle(const JobResult& run) {
    for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step) {
        if (!job::ends_on_block(step->kind)) {
            return step->findings.flange_angle_middle.mean;
        }
    }
    return std::nullopt;
}

Numbers angle_and_shares(const job::Job& slice, const findings::Verdict& as_run) {
    job::Job quick = slice;
    quick.accuracy = job::Accuracy::quick;
    quick.scatter.reset();
    const Result<JobResult> run =
        run_job(quick, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    if (!run || run->reason != StopReason::done) {
        return std::nullopt;
    }
    std::vector<double> numbers{
        loose_angle(*run).value_or(std::numeric_limits<double>::quiet_NaN())};
    for (const LimitUse& limit : as_run.limits) {
        const auto same = std::ranges::find(run->verdict.limits, limit.place, &LimitUse::place);
        const Answer answer = same == run->verdict.limits.end() ? Answer{} : as_answer(*same);
        numbers.push_back(answer.share);
        numbers.push_back(answer.is_needed ? 1 : 0);
        numbers.push_back(static_cast<double>(answer.grade));
    }
    return numbers;
}

Numbers shares_on_slice(const job::Job& slice, const findings::Verdict& as_run) {
    Numbers numbers = angle_and_shares(slice, as_run);
    if (numbers) {
        numbers->erase(numbers->begin());
    }
    return numbers;
}

double share_in(const std::vector<double>& answer, std::size_t limit) {
    return std::max(answer_at(answer, limit).share, 0.0);
}

std::vector<LimitAnswer> expected_limits(
    const findings::Verdict& as_run,
    const std::vector<double>& as_is,
    const std::vector<double>& changed
) {
    std::vector<LimitAnswer> uses;
    for (std::size_t i = 0; i < as_run.limits.size(); ++i) {
        uses.push_back(scaled(as_run.limits[i], answer_at(as_is, i), answer_at(changed, i)));
        uses.back().place = as_run.limits[i].place;
    }
    return uses;
}

ShareWord expected_with(
    const findings::Verdict& as_run,
    double close_share,
    const std::vector<double>& as_is,
    const std::vector<double>& changed
) {
    ShareWord worst{VerdictWord::holds, 0};
    const std::vector<LimitAnswer> uses = expected_limits(as_run, as_is, changed);
    for (std::size_t i = 0; i < uses.size(); ++i) {
        const Answer& use = uses[i];
        if (!use.is_needed) {
            continue;
        }
        const VerdictWord word = word_of(use, close_share);
        const ShareWord here{word, std::max(use.share, 0.0)};
        const int more = rank_of(here.word) - rank_of(worst.word);
        if (more > 0 || (more == 0 && here.share > worst.share)) {
            worst = here;
        }
    }
    return worst;
}

} // namespace flangewright::process
