#include "io/command_line/fit_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/curve_picture.hpp"
#include "io/command_line/fit_text.hpp"
#include "io/command_line/material_page.hpp"
#include "io/command_line/refusal.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/tensile/material_text.hpp"
#include "io/tensile/test_file.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace flangewright::command_line {

namespace {

using key_file::InputProblem;
using material::TensileFit;

constexpr double aluminium_poisson_ratio = 0.33; // from memory

InputProblem in_file(
    const material::TestProblem& problem,
    const FitArguments& arguments,
    const std::vector<int>& lines
) {
    return {
        arguments.test_file.string(),
        problem.point ? lines[*problem.point] : 0,
        0,
        "test",
        problem.found,
        problem.allowed,
        problem.remedy};
}

std::string sheet_name(const FitArguments& arguments) {
    return arguments.name.value_or("own sheet, " + arguments.test_file.stem().string());
}

tensile::MaterialFacts facts_of(const FitArguments& arguments) {
    tensile::MaterialFacts facts;
    facts.name = sheet_name(arguments);
    facts.source = "tensile test " + arguments.test_file.filename().string();
    facts.gauge = arguments.sizes.gauge_length
        ? fmt::format("{:g} mm gauge", *arguments.sizes.gauge_length)
        : "gauge length not said";
    facts.poisson_ratio = arguments.poisson_ratio.value_or(aluminium_poisson_ratio);
    facts.is_poisson_given = arguments.poisson_ratio.has_value();
    facts.direction = arguments.direction;
    return facts;
}

/// The points thinned to what a picture can show, the curves beside them.
chart::CurveChart chart_of(const TensileFit& fit, const FitArguments& arguments) {
    constexpr std::size_t n_marks = 120;
    chart::CurveChart chart;
    chart.text.title = "Tensile test: " + sheet_name(arguments);
    chart.text.subtitle =
        "Dots: as measured. Full lines: where the curve was fitted; dashed: beyond, a guess.";
    chart.text.footer = fmt::format(
        "{}  |  flangewright {}  |  a forming estimate, not approved data",
        arguments.test_file.filename().string(),
        program_version()
    );
    for (const material::CurveFit& one : fit.curves) {
        const auto law = one.curve.law;
        chart.curves.push_back(
            {one.curve.law_name,
             fmt::format(
                 "{}: {}; misses {:.2g} MPa rms",
                 one.curve.law_name,
                 parameters_text(one.curve.law_name, one.curve.law_values),
                 one.rms
             ),
             [law](double strain) { return law->at(strain).stress; },
             one.curve.fitted_to->least,
             one.curve.fitted_to->most}
        );
    }
    const std::size_t n = fit.points.stress.size();
    for (std::size_t i = 0; i < n; i += std::max<std::size_t>(1, n / n_marks)) {
        chart.measured_strain.push_back(fit.points.plastic_strain[i]);
        chart.measured_stress.push_back(fit.points.stress[i]);
    }
    if (fit.uniform_elongation) {
        const double stress = fit.tensile_strength * (1 + *fit.uniform_elongation);
        chart.uniform_strain = std::log1p(*fit.uniform_elongation) - stress / fit.elastic.slope;
        chart.uniform_words = fmt::format(
            "maximum load at {} elongation", units::percent_text(*fit.uniform_elongation, 1)
        );
    }
    return chart;
}

int write_material(const TensileFit& fit, const FitArguments& arguments, Terminal& terminal) {
    if (fit.curves.empty()) {
        return refuse(
            {arguments.test_file.string(),
             0,
             0,
             "test",
             "no hardening law that fits",
             "a curve that rises from the proof stress to maximum load",
             "look at the picture (--picture), or write the curve out with law = \"table\""},
            terminal
        );
    }
    const auto written =
        run_folder::write_whole(*arguments.out, tensile::material_text(fit, facts_of(arguments)));
    if (!written) {
        terminal.err << line_for(written.error()) << "\n";
        return outside_trouble;
    }
    terminal.out << "Material file written: " << arguments.out->string()
                 << "; in the folder of your own sheets the program finds it by the name "
                 << key_file::quoted_excerpt(sheet_name(arguments)) << "\n";
    return done;
}

} // namespace

int fit_test(const FitArguments& arguments, Terminal& terminal) {
    const auto file = tensile::read_test_file(arguments.test_file, arguments.sizes);
    if (!file) {
        return refuse(file.error(), terminal);
    }
    const Result<TensileFit, material::TestProblem> fit = material::fit_tensile_test(
        file->test,
        {arguments.youngs_modulus, arguments.poisson_ratio.value_or(aluminium_poisson_ratio)}
    );
    if (!fit) {
        return refuse(in_file(fit.error(), arguments, file->lines), terminal);
    }
    terminal.out << sheet_name(arguments) << ": " << file->lines.size() << " points\n"
                 << fit_text(*fit);
    if (!file->ignored.empty()) {
        terminal.out << fmt::format("Columns left aside: {}\n", fmt::join(file->ignored, ", "));
    }
    if (arguments.out) {
        if (const int code = write_material(*fit, arguments, terminal); code != done) {
            return code;
        }
    }
    return arguments.picture
        ? write_picture(chart_of(*fit, arguments), *arguments.picture, terminal)
        : static_cast<int>(done);
}

} // namespace flangewright::command_line
