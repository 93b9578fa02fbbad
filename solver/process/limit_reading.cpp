#include "solver/process/limit_reading.hpp"

#include "solver/findings/verdict.hpp"

namespace flangewright::process {

namespace {

LimitAnswer as_limit(const findings::LimitUse& use) {
    return {use.share.value_or(-1), use.is_needed, use.grade, use.place};
}

double allowed_share(const LimitAnswer& limit, double wanted, double close_share) {
    return wanted > 0 ? wanted : findings::share_that_holds(limit.place, limit.grade, close_share);
}

} // namespace

std::optional<Reading>
worst_of(const std::vector<LimitAnswer>& limits, double wanted, double close_share) {
    Reading worst{-1, 0};
    for (const LimitAnswer& limit : limits) {
        if (!limit.is_needed) {
            continue;
        }
        if (limit.share < 0) {
            return std::nullopt;
        }
        const double over = limit.share / allowed_share(limit, wanted, close_share) - 1;
        if (over > worst.sign) {
            worst = {over, limit.share};
        }
    }
    return worst;
}

std::optional<Reading>
read_run(const ValueSearch& search, const JobResult& run, double close_share) {
    if (search.aim == Aim::flange_angle) {
        const std::optional<double> angle = loose_angle(run);
        return angle ? std::optional(Reading{*angle - search.wanted, *angle}) : std::nullopt;
    }
    std::vector<LimitAnswer> limits;
    for (const findings::LimitUse& use : run.verdict.limits) {
        limits.push_back(as_limit(use));
    }
    return worst_of(limits, search.wanted, close_share);
}

std::optional<Reading>
read_expected(const ValueSearch& search, const Expected& expected, double close_share) {
    if (search.aim == Aim::flange_angle) {
        return Reading{expected.angle - search.wanted, expected.angle};
    }
    return worst_of(expected.limits, search.wanted, close_share);
}

} // namespace flangewright::process
