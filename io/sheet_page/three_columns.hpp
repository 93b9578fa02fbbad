// Figures of a part on the block, released, and by hand, side by side.
#pragma once

#include "io/sheet_page/html.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/findings.hpp"

#include <functional>
#include <string>

namespace flangewright::sheet_page {

/// What a cell says when a figure does not exist there.
inline const std::string no_figure = "&ndash;";

/// Held and released findings, whichever the run reached.
struct Columns {
    const findings::PartFindings* held = nullptr;
    const findings::PartFindings* released = nullptr;
};

/// "89.5 deg". Units: rad. Source: none needed. Fails: never.
[[nodiscard]] inline std::string shown_deg(double angle) {
    return tables::shown_number(units::degrees(angle), 1) + " deg";
}

/// One figure in both columns and by hand. Units: none. Source: none needed. Fails: never.
[[nodiscard]] inline std::string figure_row(
    const std::string& name,
    const Columns& columns,
    const std::function<std::string(const findings::PartFindings&)>& say,
    const std::string& by_hand
) {
    const auto cell = [&say](const findings::PartFindings* found) {
        return found == nullptr ? no_figure : say(*found);
    };
    return row(name, {cell(columns.held), cell(columns.released), by_hand});
}

} // namespace flangewright::sheet_page
