#include "solver/findings/chance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace flangewright::findings {

namespace {

constexpr int n_draws = 100'000;
constexpr unsigned seed = 20260101; // any; fixed so that a run told twice says the same

double deviation_of(const LimitMoves& limit) {
    double variance = limit.limit_band * limit.limit_band;
    for (const double move : limit.moves) {
        variance += move * move;
    }
    return limit.share * std::sqrt(variance) / deviations_in_a_band;
}

/// Standard normal numbers. Own, since the standard library's differ from one to the next.
class Normal {
public:
    double draw() {
        const double radius = std::sqrt(-2 * std::log(1 - uniform()));
        return radius * std::cos(2 * std::numbers::pi * uniform());
    }

private:
    double uniform() { return static_cast<double>(engine_()) / 4294967296.0; } // below 1

    std::mt19937 engine_{seed};
};

bool splits(const LimitMoves& limit, const std::vector<double>& varied, double bearing) {
    double reached = limit.share;
    for (std::size_t k = 0; k < limit.moves.size(); ++k) {
        reached += limit.share * limit.moves[k] * varied[k];
    }
    return reached > 1 + limit.limit_band * bearing;
}

double share_of_draws(std::span<const LimitMoves> limits) {
    std::size_t n_varied = 0;
    for (const LimitMoves& limit : limits) {
        n_varied = std::max(n_varied, limit.moves.size());
    }
    Normal normal;
    std::vector<double> varied(n_varied);
    int n_split = 0;
    for (int i = 0; i < n_draws; ++i) {
        for (double& value : varied) {
            value = normal.draw() / deviations_in_a_band;
        }
        // One sheet, one way of making edges: its edges bear more or less together.
        const double bearing = normal.draw() / deviations_in_a_band;
        n_split +=
            std::ranges::any_of(
                limits, [&](const LimitMoves& limit) { return splits(limit, varied, bearing); }
            )
            ? 1
            : 0;
    }
    return static_cast<double>(n_split) / n_draws;
}

} // namespace

double normal_beyond(double limit, double mean, double deviation) {
    if (deviation <= 0) {
        return mean > limit ? 1 : 0;
    }
    return 0.5 * std::erfc((limit - mean) / (deviation * std::numbers::sqrt2));
}

Chance chance_of_splitting(std::span<const LimitMoves> limits) {
    Chance chance;
    if (limits.empty()) {
        chance.why_not = "Nothing here is stretched enough to need a limit.";
        return chance;
    }
    for (const LimitMoves& limit : limits) {
        const double deviation = deviation_of(limit);
        const double here = normal_beyond(1, limit.share, deviation);
        const bool is_likelier = !chance.first_order || here > *chance.first_order
            || (here == *chance.first_order && limit.share > chance.share);
        if (is_likelier) {
            chance.first_order = here;
            chance.place = limit.place;
            chance.share = limit.share;
            chance.deviation = deviation;
        }
    }
    chance.by_draws = share_of_draws(limits);
    return chance;
}

} // namespace flangewright::findings
