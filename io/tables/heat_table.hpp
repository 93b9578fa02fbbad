// Figures for annealing and heat treatment, each with its standing.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace flangewright::tables {

/// One figure. Thickness in mm.
struct HeatRow {
    std::string_view what; ///< "Soak, at least"
    std::string_view alloys; ///< first digits of the sheets it is for, "2024 7075"; empty: all
    double thickness_above = 0;
    double thickness_most = 1e9;
    bool is_of_anneal = false; ///< else of the heat treatment
    std::string_view value; ///< as the trade writes it
    std::string_view standing; ///< "read" or "from memory"
    std::string_view source;
};

/// Units: as written. Source: each row's own. Fails: never.
[[nodiscard]] std::span<const HeatRow> heat_rows();

/// Whether a row speaks of a sheet by its name ("2024-O clad") and thickness. Units: mm. Source:
/// none needed. Fails: never.
[[nodiscard]] bool is_for(const HeatRow& row, const std::string& sheet, double thickness);

} // namespace flangewright::tables
