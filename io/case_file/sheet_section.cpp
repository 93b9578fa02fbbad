#include "io/case_file/sections.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/sheet_library/material_reader.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/units/gauge.hpp"

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

std::optional<material::SheetMaterial> material_by_name(TableReader& table) {
    const std::optional<std::string> name = table.text("material", Need::required);
    if (!name) {
        return std::nullopt;
    }
    if (const sheet_library::KnownSheet* sheet = sheet_library::find_sheet(*name)) {
        return sheet->material;
    }
    const std::vector<std::string> names = sheet_library::resembling_names(*name);
    table.object(
        "material",
        key_file::listed(names),
        "choose one, see \"flangewright materials\", or write the sheet out in [sheet.material]"
    );
    return std::nullopt;
}

// Steel has other thicknesses under the same gauge numbers.
constexpr double stiffest_aluminium = 100'000;

std::optional<double>
read_gauge_thickness(TableReader& table, const std::optional<material::SheetMaterial>& material) {
    const std::string text = table.text("thickness", Need::required).value_or("");
    if (material && material->youngs_modulus > stiffest_aluminium) {
        table.object(
            "thickness",
            "a thickness (gauge numbers are only known for aluminium sheet)",
            "measure the sheet and write its thickness, like \"0.032 in\""
        );
        return std::nullopt;
    }
    const units::Written thickness = units::read_gauge(text);
    if (!thickness) {
        table.object("thickness", thickness.error().allowed, thickness.error().remedy);
        return std::nullopt;
    }
    return *thickness;
}

std::optional<double>
read_thickness(TableReader& table, const std::optional<material::SheetMaterial>& material) {
    if (table.holds_text("thickness")
        && units::is_gauge(table.text("thickness", Need::required).value_or(""))) {
        return read_gauge_thickness(table, material);
    }
    return table.value(
        {.key = "thickness",
         .measure = Measure::length,
         .lowest = 0.1,
         .highest = 6,
         .reason = "thinner is foil, thicker is plate and bends by other rules",
         .remedy = "check the unit of the thickness"}
    );
}

void refuse_both(TableReader& table) {
    table.object_found(
        "largest_thinning",
        "both least_thickness and largest_thinning",
        "one of them",
        "keep the one the drawing gives"
    );
}

/// By the drawing, if it says something; less than the thickness, which is checked here too.
std::optional<double>
read_least_thickness(TableReader& table, const std::optional<double>& thickness) {
    const bool has_thickness = table.has("least_thickness");
    if (has_thickness && table.has("largest_thinning")) {
        refuse_both(table);
        return std::nullopt;
    }
    if (!has_thickness) {
        const std::optional<double> thinning = table.value(
            {.key = "largest_thinning",
             .measure = Measure::percent,
             .lowest = 0.005,
             .highest = 0.9,
             .reason = "of the thickness as bought, anywhere on the finished part",
             .remedy = "write what the drawing allows, like \"10 %\"",
             .need = Need::optional}
        );
        return thinning && thickness ? std::optional((1 - *thinning) * *thickness) : std::nullopt;
    }
    const std::optional<double> least = table.value(
        {.key = "least_thickness",
         .measure = Measure::length,
         .lowest = 0.01,
         .highest = 6,
         .reason = "of the finished part, by its drawing",
         .remedy = "check the unit against the drawing"}
    );
    constexpr double most_share = 0.995; // any forming thins by half a per cent
    if (least && thickness && *least > most_share * *thickness) {
        table.object(
            "least_thickness",
            "less than the sheet's thickness by half a per cent or more (forming thins every "
            "sheet)",
            "take a thicker sheet, or check both thicknesses"
        );
        return std::nullopt;
    }
    return least;
}

} // namespace

std::optional<material::SheetMaterial> read_sheet_material(TableReader& table) {
    if (!table.holds_table("material")) {
        return material_by_name(table);
    }
    std::optional<TableReader> inner = table.table("material", Need::required);
    std::optional<material::SheetMaterial> material = sheet_library::read_material(*inner);
    inner->finish();
    return material;
}

std::optional<material::SheetMaterial> read_heated_sheet(TableReader& table) {
    std::optional<material::SheetMaterial> material = read_sheet_material(table);
    table.finish();
    return material;
}

SheetSection read_sheet(TableReader& table) {
    SheetSection sheet;
    sheet.is_by_name = !table.holds_table("material");
    sheet.material = read_sheet_material(table);
    sheet.thickness = read_thickness(table, sheet.material);
    sheet.least_thickness = read_least_thickness(table, sheet.thickness);
    sheet.rolling_direction = table
                                  .value(
                                      {.key = "rolling_direction",
                                       .measure = Measure::angle,
                                       .lowest = -180,
                                       .highest = 180,
                                       .reason = "degrees from the bend line toward the flange, 0 "
                                                 "is along it",
                                       .remedy = "measure the angle from the bend line",
                                       .need = Need::optional}
                                  )
                                  .value_or(0);
    table.finish();
    return sheet;
}

} // namespace flangewright::case_file
