// A sheet's curves as a picture file.
#pragma once

#include "io/chart/curve_chart.hpp"
#include "io/chart/limit_chart.hpp"
#include "io/command_line/terminal.hpp"
#include "solver/material/sheet_material.hpp"

#include <filesystem>

namespace flangewright::command_line {

/// What the chart of this sheet shows. Units: as CurveChart. Fails: never.
[[nodiscard]] chart::CurveChart curve_chart_of(const material::SheetMaterial& material);

/// Computed local neck of straight paths beside the sheet's forming limit. Units: as LimitChart.
/// Fails: without a curve nothing is computed.
[[nodiscard]] chart::LimitChart limit_chart_of(const material::SheetMaterial& material);

/// The second picture's name beside that of the first: "a.png" gives "a_neck.png". Fails: never.
[[nodiscard]] std::filesystem::path limit_file_beside(const std::filesystem::path& file);

/// Draws under the user's display or a hidden one and writes the file whole; tells where it is.
/// Returns the exit code: bad input unless the name ends in ".png", trouble outside when it can't
/// be drawn or written.
[[nodiscard]] int write_picture(
    const chart::CurveChart& chart, const std::filesystem::path& file, Terminal& terminal
);

[[nodiscard]] int write_picture(
    const chart::LimitChart& chart, const std::filesystem::path& file, Terminal& terminal
);

} // namespace flangewright::command_line
