#include "solver/material/fit/tensile_test.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::material {

namespace {

constexpr double most_back = 0.0005; ///< an extensometer's noise, engineering strain
constexpr double most_push = 0.02; ///< a load cell's zero, share of the largest load
constexpr double most_strain = 2; ///< no sheet metal stretches to three times its length
constexpr double broken_at = 0.5; ///< share of the largest load

std::string percent(double share) {
    return fmt::format("{:.3g} %", 100 * share);
}

std::string mpa(double stress) {
    return fmt::format("{:.4g} MPa", stress);
}

std::size_t place_of_maximum(const std::vector<double>& stress) {
    return static_cast<std::size_t>(std::ranges::max_element(stress) - stress.begin());
}

// A record may go on after the break, with the extensometer anywhere.
std::size_t n_until_break(const std::vector<double>& stress) {
    const std::size_t top = place_of_maximum(stress);
    std::size_t end = top;
    while (end < stress.size() && stress[end] > broken_at * stress[top]) {
        ++end;
    }
    return end;
}

std::optional<TestProblem> push_problem(const TensileTest& test) {
    const double pull = *std::ranges::max_element(test.stress);
    const auto worst = std::ranges::min_element(test.stress);
    const auto point = static_cast<std::size_t>(worst - test.stress.begin());
    if (-*worst > pull) {
        return TestProblem{
            point,
            "loads that push (" + mpa(*worst) + ")",
            "a test in tension, its loads positive",
            "turn the sign of load and extension if the machine counts tension as negative"};
    }
    if (*worst < -most_push * pull) {
        return TestProblem{
            point,
            "a negative load (" + mpa(*worst) + ")",
            "loads of zero or more",
            "set the load cell to zero, leave out the rows before the strip is tight"};
    }
    return std::nullopt;
}

std::optional<TestProblem> strain_problem(const TensileTest& test) {
    double farthest = test.strain.front();
    for (std::size_t i = 0; i < test.strain.size(); ++i) {
        if (test.strain[i] > most_strain) {
            return TestProblem{
                i,
                "a strain of " + percent(test.strain[i]),
                "at most " + percent(most_strain),
                "check the unit of the strain and the gauge length"};
        }
        if (test.strain[i] < farthest - most_back) {
            return TestProblem{
                i,
                "strain that runs back from " + percent(farthest) + " to "
                    + percent(test.strain[i]),
                "strain that grows, but for noise of " + percent(most_back),
                "leave out rows of unloading and of a slipped extensometer"};
        }
        farthest = std::max(farthest, test.strain[i]);
    }
    return std::nullopt;
}

TestProblem too_few(std::size_t n) {
    return {
        std::nullopt,
        std::to_string(n) + " points up to the break",
        std::to_string(n_points_least) + " or more",
        "record the test more finely"};
}

} // namespace

Result<TensileTest, TestProblem> sound_test(const TensileTest& record) {
    if (record.strain.size() < n_points_least) {
        return tl::unexpected(too_few(record.strain.size()));
    }
    if (const auto problem = push_problem(record)) {
        return tl::unexpected(*problem);
    }
    if (*std::ranges::max_element(record.stress) <= 0) {
        return tl::unexpected(TestProblem{
            std::nullopt, "no load at all", "loads that rise", "check the column of the load"});
    }
    const std::size_t n = n_until_break(record.stress);
    if (n < n_points_least) {
        return tl::unexpected(too_few(n));
    }
    TensileTest test = record;
    test.strain.resize(n);
    test.stress.resize(n);
    test.width_strain.resize(std::min(n, record.width_strain.size()));
    if (const auto problem = strain_problem(test)) {
        return tl::unexpected(*problem);
    }
    return test;
}

} // namespace flangewright::material
