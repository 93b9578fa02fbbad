#include "io/sheet_library/sheet_file.hpp"

#include "io/sheet_library/material_reader.hpp"

namespace flangewright::sheet_library {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

material::Sourced read_strength(TableReader& table, const std::string& key) {
    return read_sourced(
        table,
        {.key = key,
         .measure = Measure::stress,
         .lowest = 1,
         .highest = 3000,
         .reason = "engineering stress of a tensile test",
         .remedy = "check the value and its unit",
         .need = Need::optional}
    );
}

} // namespace

SheetFile sheet_from(const Result<key_file::Document, key_file::InputProblem>& file) {
    if (!file) {
        return {std::nullopt, "", {file.error()}};
    }
    key_file::Reading reading(file->file);
    TableReader table(reading, file->root, {1, 1}, "");
    KnownSheet sheet;
    const std::string name = table.text("name", Need::required).value_or("");
    sheet.other_names =
        table.texts("other_names", Need::optional).value_or(std::vector<std::string>{});
    sheet.youngs_modulus = read_sourced(table, modulus_rule());
    sheet.poisson_ratio = read_sourced(table, poisson_rule());
    sheet.proof_stress = read_strength(table, "proof_stress");
    sheet.tensile_strength = read_strength(table, "tensile_strength");
    const auto material = read_material(table);
    table.finish();
    reading.report_unknown();
    if (!material || !reading.is_clean()) {
        return {std::nullopt, name, reading.sorted_problems()};
    }
    sheet.material = *material;
    return {std::move(sheet), name, {}};
}

} // namespace flangewright::sheet_library
