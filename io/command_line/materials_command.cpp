#include "io/command_line/materials_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/sheet_library/back_stress_text.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/units/percent.hpp"
#include "io/units/stress.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flangewright::command_line {

namespace {

using material::Sourced;
using sheet_library::KnownSheet;
using Row = std::vector<std::string>;

std::string modulus_text(double modulus) {
    return fmt::format(
        "{} GPa ({} Msi)",
        units::plain_number(modulus / 1000, 1),
        units::plain_number(modulus / units::mpa_per_ksi / 1000, 1)
    );
}

std::string both_stresses(double stress) {
    return units::stress_text(stress, units::LengthUnit::millimetre) + " ("
        + units::stress_text(stress, units::LengthUnit::inch) + ")";
}

Row row_for(const std::string& name, const std::string& value, const Sourced& sourced) {
    return {
        name,
        sourced.value ? value : "not known",
        material::word_for(sourced.grade),
        sourced.source};
}

std::string short_stress(const Sourced& stress) {
    return stress.value ? units::stress_text(*stress.value, units::LengthUnit::millimetre)
                        : "not known";
}

std::string list_text() {
    std::vector<Row> rows{{"name", "proof", "tensile", "elongation", "curve data", ""}};
    for (const KnownSheet& sheet : sheet_library::known_sheets()) {
        const Sourced& elongation = sheet.material.total_elongation;
        const bool is_own = !sheet.material.own_file.empty();
        rows.push_back(
            {sheet.material.name,
             short_stress(sheet.proof_stress),
             short_stress(sheet.tensile_strength),
             elongation.value ? units::percent_text(*elongation.value, 0) : "not known",
             material::word_for(sheet.material.curve_grade),
             is_own ? "your own: " + sheet.material.own_file : ""}
        );
    }
    return as_columns(rows)
        + "\nTypical values are not minimums. \"flangewright materials NAME\" shows the sources.\n";
}

std::string parameters_text(const material::SheetMaterial& material) {
    std::string text;
    for (const material::HardeningEntry& entry : material::hardening_laws()) {
        if (entry.name != material.law_name) {
            continue;
        }
        for (const material::LawParameter& parameter : entry.parameters) {
            const bool is_stress = parameter.quantity == material::Quantity::stress;
            for (const double value : material.law_values.at(parameter.name)) {
                text += fmt::format(
                    "{}{} {:g}{}",
                    text.empty() ? "" : ", ",
                    parameter.name,
                    value,
                    is_stress ? " MPa" : ""
                );
            }
        }
    }
    return text;
}

std::string bends_text(const material::SheetMaterial& material) {
    if (material.bend_limits.empty()) {
        return "  smallest bend: not known\n";
    }
    std::vector<Row> rows{{"thickness", "smallest inside radius"}};
    for (const material::BendLimit& limit : material.bend_limits) {
        rows.push_back(
            {units::side_by_side(limit.thickness, units::LengthUnit::millimetre),
             fmt::format("{:g} t", limit.radius_over_thickness)}
        );
    }
    return as_columns(rows)
        + fmt::format(
               "  ({}: {})\n", material::word_for(material.bend_grade), material.bend_source
        );
}

std::string sheet_page(const KnownSheet& sheet) {
    const material::SheetMaterial& material = sheet.material;
    const auto stress = [](const Sourced& value) { return both_stresses(value.value.value_or(0)); };
    const auto percent = [](const Sourced& value) {
        return units::percent_text(value.value.value_or(0), 1);
    };
    const Sourced& poisson = sheet.poisson_ratio;
    const Sourced curve{0, material.curve_grade, material.curve_source};
    const Sourced back{0, material.back_stress_grade, material.back_stress_source};
    const std::string back_text =
        sheet_library::back_stress_text(material, units::LengthUnit::millimetre);
    return sheet_library::name_with_origin(material) + "\n"
        + as_columns({
            row_for(
                "Young's modulus",
                modulus_text(sheet.youngs_modulus.value.value_or(0)),
                sheet.youngs_modulus
            ),
            row_for("Poisson's ratio", fmt::format("{:g}", poisson.value.value_or(0)), poisson),
            row_for("proof stress", stress(sheet.proof_stress), sheet.proof_stress),
            row_for("tensile strength", stress(sheet.tensile_strength), sheet.tensile_strength),
            row_for("elongation", percent(material.total_elongation), material.total_elongation),
            row_for(
                "uniform elongation",
                percent(material.uniform_elongation),
                material.uniform_elongation
            ),
            row_for("hardening", material.law_name + ": " + parameters_text(material), curve),
            material.back_stresses.empty() ? Row{"back stress", back_text, "", ""}
                                           : row_for("back stress", back_text, back),
        })
        + bends_text(material) + (material.note.empty() ? "" : "  " + material.note + "\n");
}

} // namespace

int show_materials(const MaterialsArguments& arguments, Terminal& terminal) {
    if (!arguments.name) {
        terminal.out << list_text();
        return done;
    }
    const KnownSheet* sheet = sheet_library::find_sheet(*arguments.name);
    if (sheet == nullptr) {
        terminal.err << key_file::line_for(
            {"command line",
             0,
             0,
             "NAME",
             key_file::quoted_excerpt(*arguments.name),
             key_file::listed(sheet_library::resembling_names(*arguments.name)),
             "choose one, or see \"flangewright materials\""}
        ) << "\n";
        return bad_input;
    }
    terminal.out << sheet_page(*sheet);
    return done;
}

} // namespace flangewright::command_line
