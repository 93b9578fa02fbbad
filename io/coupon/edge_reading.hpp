// What a test flange says of the stretch its edge bears.
#pragma once

#include "io/coupon/measured_file.hpp"

namespace flangewright::coupon {

/// Thickness at the edge beside what the stretch lets expect; one that is far from it.
struct ThicknessQuestion {
    PairReading pair;
    double least = 0; ///< mm
    double most = 0;
};

/// The bracket of the edge's limit.
struct EdgeReading {
    PairReading borne; ///< stretched most among those that are whole and below every crack
    std::optional<PairReading> cracked; ///< stretched least among those that cracked
    std::vector<PairReading> borne_beyond; ///< whole, though stretched no less than that one
    int n_pairs = 0;
    double shortest_gauge = 0; ///< mm, before
    std::vector<ThicknessQuestion> questions;
};

/// The largest stretch borne without a crack below the smallest stretch at which a pair cracked;
/// without any crack the largest there is. Units: mm, strains in -. Source: the bracket is the
/// definition; thickness of a strip in uniaxial tension, (1 + stretch) ^ (-1 / (1 + r)), volume
/// kept, derived here; questioned outside what r of 0.5 to 2 gives, with 0.02 mm of a micrometer to
/// either side (common practice, no source). Fails: fewer than three pairs; no whole pair below the
/// first crack; a limit below 0.5 %; thicknesses without `sheet_thickness`, or none that belong to
/// it.
[[nodiscard]] Result<EdgeReading, key_file::InputProblem> edge_reading(
    const std::vector<PairReading>& pairs,
    std::optional<double> sheet_thickness,
    const std::string& file
);

} // namespace flangewright::coupon
