#include "io/command_line/curve_picture.hpp"

#include "io/command_line/arguments.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/material_page.hpp"
#include "io/command_line/words.hpp"
#include "io/display/child.hpp"
#include "io/display/screen.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

namespace flangewright::command_line {

namespace {

chart::DrawnCurve drawn(
    const std::string& name,
    const std::string& parameters,
    const std::shared_ptr<const material::HardeningLaw>& law,
    const std::optional<material::StrainRange>& range
) {
    const material::StrainRange fitted = range.value_or(material::StrainRange{});
    return {
        name,
        parameters,
        [law](double strain) { return law->at(strain).stress; },
        fitted.least,
        fitted.most};
}

std::string law_words(const std::string& name, const material::LawValues& values) {
    return name + ": " + parameters_text(name, values);
}

/// True plastic strain at an engineering strain, the stress by the curve.
double plastic_strain_at(const material::SheetMaterial& material, double elongation) {
    const double strain = std::log1p(elongation);
    const double stress = material.hardening->at(strain).stress;
    return strain - stress / material.youngs_modulus;
}

Result<std::string> drawn_bytes(const chart::CurveChart& chart) {
    const Result<display::Screen> screen =
        display::Screen::find(display::Screen::from_surroundings());
    if (!screen) {
        return tl::unexpected(screen.error());
    }
    display::ChildWork work = display::work_in_child(
        {.display = screen->name()},
        [&chart](const display::HandOver& hand_over) {
            hand_over({"curves.png", chart::curve_chart(chart)});
        }
    );
    if (work.made.empty() || work.made.front().second.empty()) {
        return tl::unexpected(OutsideProblem{
            "drawing the picture", "", "check that the X display can draw"});
    }
    return std::move(work.made.front().second);
}

} // namespace

chart::CurveChart curve_chart_of(const material::SheetMaterial& material) {
    chart::CurveChart chart;
    chart.text.title = "Stress-strain curves: " + material.name;
    chart.text.subtitle =
        "In tension. Full lines: strains the curve was fitted to; dashed: beyond them, or where "
        "they are not known.";
    chart.text.footer = fmt::format(
        "{}{}  |  flangewright {}  |  a forming estimate, not approved data",
        material.own_file.empty() ? "" : "your own data, ",
        "curve data " + material::word_for(material.curve_grade),
        program_version()
    );
    chart.curves.push_back(drawn(
        material.law_name + " (used)",
        law_words(material.law_name, material.law_values),
        material::steady_flow(material.hardening, material.back_stresses),
        material.fitted_to
    ));
    for (const material::OtherCurve& curve : material.other_curves) {
        chart.curves.push_back(drawn(
            curve.law_name, law_words(curve.law_name, curve.law_values), curve.law, curve.fitted_to
        ));
    }
    if (const std::optional<double> uniform = material.uniform_elongation.value) {
        chart.uniform_strain = plastic_strain_at(material, *uniform);
        chart.uniform_words = fmt::format(
            "maximum load at {} elongation ({})",
            units::percent_text(*uniform, 1),
            material::word_for(material.uniform_elongation.grade)
        );
    }
    return chart;
}

int write_picture(
    const chart::CurveChart& chart, const std::filesystem::path& file, Terminal& terminal
) {
    if (file.extension() != ".png") {
        terminal.err << key_file::line_for(
            {"command line",
             0,
             0,
             "--picture",
             key_file::quoted_excerpt(file.string()),
             "a file name that ends in .png",
             "write it like --picture curves.png"}
        ) << "\n";
        return bad_input;
    }
    const Result<std::string> bytes = drawn_bytes(chart);
    const Result<std::filesystem::path> written = bytes
        ? run_folder::write_whole(file, *bytes)
        : Result<std::filesystem::path>(tl::unexpected(bytes.error()));
    if (!written) {
        terminal.err << line_for(written.error()) << "\n";
        return outside_trouble;
    }
    terminal.out << "Picture written: " << file.string() << "\n";
    return done;
}

} // namespace flangewright::command_line
