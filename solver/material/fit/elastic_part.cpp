#include "solver/material/fit/elastic_part.hpp"

#include "solver/material/fit/straight_line.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::material {

namespace {

constexpr double offset = 0.002;
constexpr double lowest_share = 0.1; ///< of the proof stress, where the straight part begins
constexpr double highest_share = 0.5;
constexpr std::size_t n_straight_least = 5;
constexpr double largest_error = 0.03;
constexpr double softest_metal = 20'000; ///< MPa: below, the record holds the machine's give
constexpr double stiffest_metal = 450'000; ///< MPa
constexpr int n_rounds = 6;

/// Points before the maximum load with a stress in the range.
StraightLine line_between(const TensileTest& test, double lowest, double highest, std::size_t& n) {
    std::vector<double> strains;
    std::vector<double> stresses;
    for (std::size_t i = 0; i < test.stress.size() && test.stress[i] < 1.5 * highest; ++i) {
        if (test.stress[i] >= lowest && test.stress[i] <= highest) {
            strains.push_back(test.strain[i]);
            stresses.push_back(test.stress[i]);
        }
    }
    n = strains.size();
    return line_through(strains, stresses);
}

/// The steepest stretch anywhere below half of the largest load, to begin with: a strip may hang
/// loose at first.
StraightLine steepest_start(const TensileTest& test) {
    constexpr std::size_t window = 5;
    const double top = *std::ranges::max_element(test.stress);
    StraightLine steepest;
    for (std::size_t i = 0; i + window <= test.strain.size(); ++i) {
        if (test.stress[i + window - 1] > 0.5 * top) {
            break;
        }
        const StraightLine line = line_through(
            std::span(test.strain).subspan(i, window), std::span(test.stress).subspan(i, window)
        );
        if (line.slope > steepest.slope) {
            steepest = line;
        }
    }
    return steepest;
}

struct Proof {
    double stress = 0;
    std::size_t point = 0;
};

/// Where the record, made straight over some points, crosses the line set off by 0.2 %.
std::optional<Proof> proof_of(const TensileTest& test, double slope, double first_strain) {
    const auto beyond = [&](std::size_t i) {
        return test.stress[i] - slope * (test.strain[i] - first_strain - offset);
    };
    constexpr std::size_t n_in_a_row = 3; // noise alone does not stay beyond
    for (std::size_t i = 1; i + n_in_a_row <= test.strain.size(); ++i) {
        if (beyond(i) > 0 || beyond(i + 1) > 0 || beyond(i + 2) > 0) {
            continue;
        }
        const std::size_t from = i > 4 ? i - 4 : 0;
        const std::size_t n = std::min<std::size_t>(i + 4, test.strain.size()) - from;
        const StraightLine local = line_through(
            std::span(test.strain).subspan(from, n), std::span(test.stress).subspan(from, n)
        );
        const double strain = (local.intercept + slope * (first_strain + offset))
            / std::max(slope - local.slope, 1e-3 * slope);
        const double low = test.strain[from];
        const double high = test.strain[from + n - 1];
        return Proof{local.intercept + local.slope * std::clamp(strain, low, high), i};
    }
    return std::nullopt;
}

TestProblem never_yields() {
    return {
        std::nullopt,
        "a record that never leaves its straight start by 0.2 %",
        "a test that goes well beyond the proof stress",
        "check the gauge length and the modulus, or record further"};
}

/// Slope and zero refined with the proof stress they lead to.
struct Straight {
    StraightLine line;
    std::size_t n = 0;
    [[nodiscard]] bool is_resolved() const {
        return n >= n_straight_least && line.slope > 0
            && line.slope_error <= largest_error * line.slope;
    }
    [[nodiscard]] double first_strain() const { return -line.intercept / line.slope; }
};

Straight straight_part(const TensileTest& test) {
    Straight straight;
    straight.line = steepest_start(test);
    for (int round = 0; round < n_rounds && straight.line.slope > 0; ++round) {
        const std::optional<Proof> proof =
            proof_of(test, straight.line.slope, straight.first_strain());
        if (!proof) {
            return {};
        }
        straight.line = line_between(
            test, lowest_share * proof->stress, highest_share * proof->stress, straight.n
        );
    }
    return straight;
}

} // namespace

Result<ElasticPart, TestProblem>
elastic_part(const TensileTest& test, std::optional<double> given) {
    const Straight straight = straight_part(test);
    ElasticPart part;
    if (straight.is_resolved()) {
        part.slope = straight.line.slope;
        part.slope_error = straight.line.slope_error;
        part.n_points = straight.n;
        part.first_strain = straight.first_strain();
    }
    if (part.slope > stiffest_metal) {
        return tl::unexpected(TestProblem{
            std::nullopt,
            "a start stiffer than any metal",
            "at most 450 GPa",
            "check gauge length, width and thickness, and the units of the columns"});
    }
    const bool is_metal = part.slope >= softest_metal;
    part.modulus = given ? *given : (is_metal ? part.slope : assumed_modulus);
    part.origin =
        given ? ModulusOrigin::given : (is_metal ? ModulusOrigin::fitted : ModulusOrigin::assumed);
    part.slope = part.n_points > 0 ? part.slope : part.modulus;
    const std::optional<Proof> proof = proof_of(test, part.slope, part.first_strain);
    if (!proof) {
        return tl::unexpected(never_yields());
    }
    part.proof_stress = proof->stress;
    part.proof_point = proof->point;
    return part;
}

} // namespace flangewright::material
