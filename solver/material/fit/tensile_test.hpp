// A tensile test as it was recorded, and whether it can be one.
#pragma once

#include "mesh/base/result.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::material {

/// Engineering values in the order they were recorded; all lists of one length.
struct TensileTest {
    std::vector<double> strain; ///< change of length over gauge length
    std::vector<double> stress; ///< load over first section, MPa
    std::vector<double> width_strain; ///< change of width over width; empty: not measured
};

/// Why a record can't be used.
struct TestProblem {
    std::optional<std::size_t> point; ///< which, from 0; empty: the record as a whole
    std::string found;
    std::string allowed;
    std::string remedy;
};

/// Fewer points show no curve.
inline constexpr std::size_t n_points_least = 20;

/// The record up to the break, left as it is but for what came after: from the maximum load on it
/// ends where the load has fallen to half. Units: as TensileTest. Source: common practice, no
/// source. Fails: with the first thing that no tensile test shows: too few points, push instead of
/// pull, strain that runs back by more than 0.05 %, strain that is no plain number.
[[nodiscard]] Result<TensileTest, TestProblem> sound_test(const TensileTest& record);

} // namespace flangewright::material
