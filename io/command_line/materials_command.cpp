#include "io/command_line/materials_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/curve_picture.hpp"
#include "io/command_line/material_page.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/units/percent.hpp"
#include "io/units/stress.hpp"

#include <ostream>

namespace flangewright::command_line {

namespace {

using material::Sourced;
using sheet_library::KnownSheet;
using Row = std::vector<std::string>;

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

} // namespace

int show_materials(const MaterialsArguments& arguments, Terminal& terminal) {
    if (!arguments.name && arguments.picture) {
        terminal.err << key_file::line_for(
            {"command line",
             0,
             0,
             "--picture",
             "no sheet to draw",
             "a sheet's name beside it",
             "write flangewright materials NAME --picture FILE.png"}
        ) << "\n";
        return bad_input;
    }
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
    terminal.out << material_page(*sheet);
    if (!arguments.picture) {
        return done;
    }
    const int code = write_picture(curve_chart_of(sheet->material), *arguments.picture, terminal);
    return code != done
        ? code
        : write_picture(
            limit_chart_of(sheet->material), limit_file_beside(*arguments.picture), terminal
        );
}

} // namespace flangewright::command_line
