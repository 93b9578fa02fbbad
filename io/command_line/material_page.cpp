#include "io/command_line/material_page.hpp"

#include "io/command_line/words.hpp"
#include "io/sheet_library/back_stress_text.hpp"
#include "io/sheet_library/yield_text.hpp"
#include "io/units/angle.hpp"
#include "io/units/percent.hpp"
#include "io/units/stress.hpp"
#include "solver/findings/neck_basis.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

namespace {

using material::SheetMaterial;
using material::Sourced;
using sheet_library::KnownSheet;
using Row = std::vector<std::string>;
using Rows = std::vector<Row>;

Row row_for(const std::string& name, const std::string& value, const Sourced& sourced) {
    return sourced.value ? Row{name, value, material::word_for(sourced.grade), sourced.source}
                         : Row{name, "not known", "", ""};
}

Row stress_row(const std::string& name, const Sourced& stress) {
    return row_for(name, both_stresses(stress.value.value_or(0)), stress);
}

Row percent_row(const std::string& name, const Sourced& share) {
    return row_for(name, units::percent_text(share.value.value_or(0), 1), share);
}

Rows test_rows(const KnownSheet& sheet) {
    const Sourced& modulus = sheet.youngs_modulus;
    const Sourced& poisson = sheet.poisson_ratio;
    return {
        row_for("Young's modulus", modulus_text(modulus.value.value_or(0)), modulus),
        row_for("Poisson's ratio", fmt::format("{:g}", poisson.value.value_or(0)), poisson),
        stress_row("proof stress", sheet.proof_stress),
        stress_row("tensile strength", sheet.tensile_strength),
        percent_row("elongation", sheet.material.total_elongation),
        percent_row("uniform elongation", sheet.material.uniform_elongation)};
}

std::string curves_text(const SheetMaterial& material) {
    Rows rows{
        {material.law_name + " (used)",
         parameters_text(material.law_name, material.law_values),
         fitted_text(material.fitted_to),
         material::word_for(material.curve_grade),
         material.curve_source}};
    for (const material::OtherCurve& curve : material.other_curves) {
        rows.push_back(
            {curve.law_name,
             parameters_text(curve.law_name, curve.law_values),
             fitted_text(curve.fitted_to),
             material::word_for(curve.grade),
             curve.source}
        );
    }
    const std::string back =
        sheet_library::back_stress_text(material, units::LengthUnit::millimetre);
    rows.push_back({"back stress", back});
    if (!material.back_stresses.empty()) {
        rows.back().insert(
            rows.back().end(),
            {"", material::word_for(material.back_stress_grade), material.back_stress_source}
        );
    }
    rows.push_back({"yield", sheet_library::yield_text(material)});
    if (material.yield != nullptr) {
        rows.back().insert(
            rows.back().end(), {"", material::word_for(material.yield_grade), material.yield_source}
        );
    }
    return " Hardening: true stress over true plastic strain, by\n" + as_columns(rows);
}

Row r_row(const std::string& angle, const std::optional<double>& r, const SheetMaterial& material) {
    const std::string name = "r at " + angle + " deg to the rolling direction";
    return material.r_values ? row_for(
               name,
               fmt::format("{:g}", r.value_or(0)),
               {r, material.r_values->grade, material.r_values->source}
           )
                             : Row{name, "not known"};
}

Rows direction_rows(const SheetMaterial& material) {
    const material::RValues values = material.r_values.value_or(material::RValues{});
    return {
        r_row("0", values.r0, material),
        r_row("45", values.r45, material),
        r_row("90", values.r90, material)};
}

Rows edge_rows(const SheetMaterial& material) {
    Rows rows;
    for (const material::EdgeFinish finish : material::edge_finishes) {
        const auto limit = material.edge_limits.find(finish);
        rows.push_back(percent_row(
            "cut edge stretches, " + material::word_for(finish),
            limit == material.edge_limits.end() ? Sourced{} : limit->second
        ));
    }
    return rows;
}

Rows forming_rows(const SheetMaterial& material) {
    const material::FormingLimit limit = material.forming_limit.value_or(material::FormingLimit{});
    Rows rows{row_for(
        "FLC0, major true strain", fmt::format("{:g}", limit.flc0.value.value_or(0)), limit.flc0
    )};
    if (!limit.points.empty() && limit.direction > 0) {
        rows.push_back(
            {"forming limit, major strain to the rolling direction",
             fmt::format("{:.0f} deg", units::degrees(limit.direction))}
        );
    }
    for (const material::FormingPoint& point : limit.points) {
        rows.push_back(
            {"forming limit, true strains",
             fmt::format("{:g} at minor {:g}", point.major, point.minor),
             material::word_for(limit.grade),
             limit.source}
        );
    }
    return rows;
}

/// Computed local necks on straight paths, and beside each point that is trusted.
std::string neck_text(const SheetMaterial& material) {
    const limits::GrooveFit groove = limits::fit_groove(material);
    if (!groove.flow) {
        return " Local neck: not computed\n";
    }
    const std::shared_ptr<const material::YieldLaw> yield = limits::yield_of(material);
    const double direction = material.forming_limit ? material.forming_limit->direction : 0;
    Rows rows;
    const auto add = [&rows](double major, double minor, const std::string& beside) {
        rows.push_back(
            {rows.empty() ? "computed, true strains" : "",
             fmt::format("{:.3f} at minor {:.3f}", major, minor),
             beside}
        );
    };
    for (const double ratio : {-0.5, -0.25, 0.0, 0.5, 1.0}) {
        const double major =
            limits::major_at_neck({*groove.flow, *yield}, groove.choice, ratio, direction);
        add(major, ratio * major, "");
    }
    for (const limits::LimitBeside& point : groove.points) {
        const double ratio = point.measured.minor / point.measured.major;
        add(point.computed_major,
            ratio * point.computed_major,
            fmt::format("measured {:g} at minor {:g}", point.measured.major, point.measured.minor));
    }
    return fmt::format(
        " Local neck on straight paths, on the {} curve\n{}{}",
        groove.law_name,
        as_columns(rows),
        as_lines("(" + findings::groove_in_words(groove) + ")")
    );
}

std::string limits_text(const SheetMaterial& material) {
    Rows rows = direction_rows(material);
    for (const Rows& more : {edge_rows(material), forming_rows(material)}) {
        rows.insert(rows.end(), more.begin(), more.end());
    }
    return " Directions and limits\n" + as_columns(rows) + neck_text(material);
}

std::string bends_text(const SheetMaterial& material) {
    if (material.bend_limits.empty()) {
        return " Smallest bend: not known\n";
    }
    Rows rows{{"thickness", "smallest inside radius"}};
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

} // namespace

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

std::string parameters_text(const std::string& law_name, const material::LawValues& values) {
    std::string text;
    for (const material::HardeningEntry& entry : material::hardening_laws()) {
        if (entry.name != law_name) {
            continue;
        }
        for (const material::LawParameter& parameter : entry.parameters) {
            const bool is_stress = parameter.quantity == material::Quantity::stress;
            for (const double value : values.at(parameter.name)) {
                text += fmt::format(
                    "{}{} {:.5g}{}",
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

std::string fitted_text(const std::optional<material::StrainRange>& range) {
    return range ? fmt::format("plastic strain {:.3g} to {:.3g}", range->least, range->most)
                 : "range not known";
}

std::string material_page(const KnownSheet& sheet) {
    const SheetMaterial& material = sheet.material;
    return sheet_library::name_with_origin(material) + "\n" + as_columns(test_rows(sheet))
        + curves_text(material) + limits_text(material) + bends_text(material)
        + (material.note.empty() ? "" : as_lines(material.note));
}

} // namespace flangewright::command_line
