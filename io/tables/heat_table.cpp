#include "io/tables/heat_table.hpp"

#include <array>
#include <sstream>

namespace flangewright::tables {

namespace {

constexpr double inch = 25.4;

// Gauges are named in rounded inches: 0.032 in stands for all up to half way to the next
// thousandth.
constexpr double up_to(double inches) {
    return (inches + 0.0005) * inch;
}

constexpr const char* handbook = "FAA general handbook, heat-treatment tables";
constexpr const char* specification = "MIL-H-6088 and AMS 2770";
constexpr const char* army = "TM 43-0106, paragraphs 3-17 to 3-19 and 3-63";

constexpr HeatRow soak(double above, double most, const char* value) {
    return {
        "Soak, at least",
        "20 60 70",
        above == 0 ? 0 : up_to(above),
        up_to(most),
        false,
        value,
        "from memory",
        specification};
}

constexpr HeatRow delay(double above, double most, const char* value) {
    return {
        "Furnace door to full immersion, at most",
        "20 60 70",
        above == 0 ? 0 : up_to(above),
        most == 0 ? 1e9 : up_to(most),
        false,
        value,
        "from memory",
        specification};
}

constexpr HeatRow plain(
    const char* what,
    const char* alloys,
    bool anneal,
    const char* value,
    const char* standing,
    const char* source
) {
    return {what, alloys, 0, 1e9, anneal, value, standing, source};
}

constexpr std::array rows{
    plain(
        "Solution temperature",
        "2024",
        false,
        "910 to 930 F (488 to 499 C)",
        "from memory",
        handbook
    ),
    plain(
        "Solution temperature",
        "6061",
        false,
        "960 to 1010 F (516 to 543 C)",
        "from memory",
        handbook
    ),
    plain(
        "Solution temperature",
        "7075",
        false,
        "860 to 930 F (460 to 499 C)",
        "from memory",
        handbook
    ),
    plain("Furnace evenness", "20 60 70", false, "5 F to each side of the range", "read", army),
    soak(0, 0.020, "10 min in salt, 20 min in air"),
    soak(0.020, 0.032, "15 min in salt, 25 min in air"),
    soak(0.032, 0.063, "20 min in salt, 30 min in air"),
    soak(0.063, 0.090, "25 min in salt, 35 min in air"),
    soak(0.090, 0.125, "30 min in salt, 40 min in air"),
    delay(0, 0.016, "5 s"),
    delay(0.016, 0.031, "7 s"),
    delay(0.031, 0.090, "10 s"),
    delay(0.090, 0, "15 s"),
    plain("Quench of sheet parts", "2024 7075", false, "cold water", "read", handbook),
    plain(
        "Window to form or straighten",
        "2024",
        false,
        "best the first 10 to 30 min, 1 to 2 h with rising force",
        "common practice, no source",
        ""
    ),
    plain(
        "Window to form or straighten",
        "7075",
        false,
        "best the first 30 min, about 2 h",
        "common practice, no source",
        ""
    ),
    plain(
        "Ageing at room temperature",
        "2024",
        false,
        "96 h",
        "read",
        "FAA general handbook; TM 43-0106, paragraph 3-18"
    ),
    plain(
        "Straining before solution treatment",
        "20 60 70",
        false,
        "sheet strained lightly (about 3 to 10 %) can grow coarse grain",
        "common practice, no source",
        ""
    ),
    plain(
        "Anneal of sheet that began soft and was never solution treated",
        "20 60 70",
        true,
        "640 to 660 F (338 to 349 C), at temperature only, then air",
        "from memory",
        handbook
    ),
    plain(
        "Anneal",
        "11 30 50",
        true,
        "650 F (343 C), at temperature; 3003 about 775 F",
        "from memory",
        handbook
    ),
    plain(
        "Anneal of sheet heat treated before",
        "20 60 70",
        true,
        "about 775 F (413 C), 2 to 3 h, 50 F an hour down to 500 F",
        "read at second hand",
        "materials tables and a heat treater's page; confirm with AMS 2770"
    )};

} // namespace

std::span<const HeatRow> heat_rows() {
    return rows;
}

bool is_for(const HeatRow& row, const std::string& sheet, double thickness) {
    if (thickness <= row.thickness_above || thickness > row.thickness_most) {
        return false;
    }
    std::istringstream alloys{std::string(row.alloys)};
    std::string alloy;
    while (alloys >> alloy) {
        if (sheet.starts_with(alloy)) {
            return true;
        }
    }
    return row.alloys.empty();
}

} // namespace flangewright::tables
