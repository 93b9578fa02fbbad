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
#include "solver/limits/groove_fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <ostream>
#include <utility>

namespace flangewright::command_line {

namespace {

constexpr int n_ratios = 30; // of strains, from a strip in tension to equal stretch both ways

/// Bytes of a PNG, drawn where it is called.
using Drawing = std::function<std::string()>;

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

Result<std::string> drawn_bytes(const Drawing& drawing) {
    const Result<display::Screen> screen =
        display::Screen::find(display::Screen::from_surroundings());
    if (!screen) {
        return tl::unexpected(screen.error());
    }
    display::ChildWork work = display::work_in_child(
        {.display = screen->name()},
        [&drawing](const display::HandOver& hand_over) {
            hand_over({"picture.png", drawing()});
        }
    );
    if (work.made.empty() || work.made.front().second.empty()) {
        return tl::unexpected(OutsideProblem{
            "drawing the picture", "", "check that the X display can draw"});
    }
    return std::move(work.made.front().second);
}

std::string footer_of(const material::SheetMaterial& material, const std::string& data) {
    return fmt::format(
        "{}{}  |  flangewright {}  |  a forming estimate, not approved data",
        material.own_file.empty() ? "" : "your own data, ",
        data,
        program_version()
    );
}

chart::LimitCurve computed_limit(
    const material::SheetMaterial& material,
    const material::HardeningLaw& flow,
    const limits::GrooveChoice& choice
) {
    const std::shared_ptr<const material::YieldLaw> yield = limits::yield_of(material);
    const double direction = material.forming_limit ? material.forming_limit->direction : 0;
    chart::LimitCurve curve;
    for (int i = 0; i <= n_ratios; ++i) {
        const double ratio = -0.5 + 1.5 * i / n_ratios;
        const double major = limits::major_at_neck({flow, *yield}, choice, ratio, direction);
        curve.major.push_back(major);
        curve.minor.push_back(ratio * major);
    }
    return curve;
}

/// The other law of the sheet with the same groove.
void add_other_limit(
    chart::LimitChart& chart,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove
) {
    if (material.other_curves.empty() || !material.other_curves.front().law) {
        return;
    }
    const material::OtherCurve& other = material.other_curves.front();
    chart.curves.push_back(computed_limit(material, *other.law, groove.choice));
    chart.curves.back().name = "computed on the " + other.law_name + " curve, same groove";
    chart.curves.back().is_used = false;
}

/// The limit that shares stand on; beside it the computed one where that misses what was measured.
void add_limits(
    chart::LimitChart& chart,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove
) {
    chart::LimitCurve computed = computed_limit(material, *groove.flow, groove.choice);
    const std::string how = fmt::format(
        "computed on the {} curve, groove {:.2g} % thinner",
        groove.law_name,
        100 * (1 - groove.choice.thickness_ratio)
    );
    if (!groove.is_from_points()) {
        computed.name = how + " (common practice, no source)";
        chart.curves.push_back(std::move(computed));
        add_other_limit(chart, material, groove);
        return;
    }
    chart::LimitCurve used = computed;
    used.name = "used: the dashed one, scaled to meet the dots";
    for (std::size_t i = 0; i < used.major.size(); ++i) {
        const double scale = 1 / groove.correction(used.minor[i] / used.major[i]);
        used.minor[i] *= scale;
        used.major[i] *= scale;
    }
    computed.name = how + " (fitted to the dots)";
    computed.is_used = false;
    chart.curves.push_back(std::move(used));
    chart.curves.push_back(std::move(computed));
}

/// Points that are kept but not trusted are shown as well, and said to be so.
void add_points(
    chart::LimitChart& chart, const material::FormingLimit& limit, const limits::GrooveFit& groove
) {
    for (const material::FormingPoint& point : limit.points) {
        chart.measured_minor.push_back(point.minor);
        chart.measured_major.push_back(point.major);
    }
    material::DataGrade grade = limit.points.empty() ? limit.flc0.grade : limit.grade;
    if (limit.flc0.value) {
        chart.measured_minor.push_back(0);
        chart.measured_major.push_back(*limit.flc0.value);
        grade = std::max(grade, limit.flc0.grade);
    }
    chart.measured_words = fmt::format(
        "dots: forming limit of the sheet, {}{}",
        material::word_for(grade),
        groove.basis == limits::GrooveBasis::doubtful ? ", not used" : ""
    );
}

int write_drawing(const Drawing& drawing, const std::filesystem::path& file, Terminal& terminal) {
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
    const Result<std::string> bytes = drawn_bytes(drawing);
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

} // namespace

chart::LimitChart limit_chart_of(const material::SheetMaterial& material) {
    chart::LimitChart chart;
    const limits::GrooveFit groove = limits::fit_groove(material);
    chart.text.title = "Local neck on straight strain paths: " + material.name;
    chart.text.subtitle = "Away from cut edges and bends. Beyond the uniform elongation the curves "
                          "behind it are extrapolated.";
    chart.text.footer =
        footer_of(material, "curve data " + material::word_for(material.curve_grade));
    if (groove.flow) {
        add_limits(chart, material, groove);
    }
    if (material.forming_limit) {
        add_points(chart, *material.forming_limit, groove);
    }
    return chart;
}

std::filesystem::path limit_file_beside(const std::filesystem::path& file) {
    return file.parent_path() / (file.stem().string() + "_neck" + file.extension().string());
}

chart::CurveChart curve_chart_of(const material::SheetMaterial& material) {
    chart::CurveChart chart;
    chart.text.title = "Stress-strain curves: " + material.name;
    chart.text.subtitle =
        "In tension. Full lines: strains the curve was fitted to; dashed: beyond them, or where "
        "they are not known.";
    chart.text.footer =
        footer_of(material, "curve data " + material::word_for(material.curve_grade));
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
    return write_drawing([&chart] { return chart::curve_chart(chart); }, file, terminal);
}

int write_picture(
    const chart::LimitChart& chart, const std::filesystem::path& file, Terminal& terminal
) {
    return write_drawing([&chart] { return chart::limit_chart(chart); }, file, terminal);
}

} // namespace flangewright::command_line
