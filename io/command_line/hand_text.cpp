#include "io/command_line/hand_text.hpp"

#include "io/command_line/words.hpp"
#include "io/sheet_library/back_stress_text.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/sheet_library/yield_text.hpp"
#include "io/tables/edge_words.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace flangewright::command_line {

namespace {

std::string degrees_text(double angle) {
    return tables::shown_number(units::degrees(angle), 2) + " deg";
}

std::string percent_shown(double fraction) {
    return tables::shown_number(100 * fraction, 1) + " %";
}

std::string elongation_text(const material::Sourced& elongation) {
    if (!elongation.value) {
        return "not known";
    }
    return fmt::format(
        "{} ({}: {})",
        percent_shown(*elongation.value),
        material::word_for(elongation.grade),
        elongation.source
    );
}

std::string block_angle_text(const job::Job& job, const findings::HandCalculation& hand) {
    return std::isfinite(hand.block_angle_for_wanted) ? fmt::format(
               "{} for a flange of {}",
               degrees_text(hand.block_angle_for_wanted),
               degrees_text(job.block.wall_angle)
           )
                                                      : "none: the bend springs back all the way";
}

/// Of a rolled sheet with the r value it stands on.
std::string
edge_thickness_text(const case_file::CaseFile& file, const findings::HandCalculation& hand) {
    const std::string text =
        tables::shown_length(file.job.sheet.thickness * hand.edge_thickness_ratio, file.unit);
    return hand.edge_r_value
        ? text + fmt::format(" (r {:.2f} along the edge, by its yield law)", *hand.edge_r_value)
        : text;
}

std::vector<std::vector<std::string>>
rows_of_lip(const case_file::CaseFile& file, const findings::HandCalculation& hand) {
    if (!hand.lip) {
        return {};
    }
    const findings::LipByHand& lip = *hand.lip;
    return {
        {"flat, flange's bend tangent to lip's",
         tables::shown_layout_length(lip.bend_begin, file.unit)},
        {"flat, lip's bend tangent to its net edge",
         tables::shown_layout_length(lip.flat_width, file.unit)},
        {"edge stretch with the lip bent, from flat", percent_shown(lip.edge_stretch)},
        {"stretch of the lip bend's outer fibre", percent_shown(std::expm1(lip.bend_strain))},
        {"springback of the lip, ideal strip", degrees_text(lip.springback)},
    };
}

} // namespace

std::string kinks_text(const case_file::CaseFile& file) {
    std::vector<std::vector<std::string>> rows;
    for (const drawing::RoundedKink& kink : file.rounded_kinks) {
        rows.push_back(
            {drawing::name_of(kink), "radius " + tables::shown_length(kink.radius, file.unit)}
        );
    }
    return rows.empty() ? "" : "Kinks of the bend line rounded:\n" + as_columns(rows) + "\n";
}

std::string sheet_text(const case_file::CaseFile& file) {
    const material::SheetMaterial& material = file.job.sheet.material;
    std::string text = fmt::format(
        "Sheet: {}, {}\n",
        sheet_library::name_with_origin(material),
        tables::shown_length(file.job.sheet.thickness, file.unit)
    );
    text += as_columns({
        {"hardening curve",
         fmt::format(
             "{} ({}: {})",
             material.law_name,
             material::word_for(material.curve_grade),
             material.curve_source
         )},
        {"back stress", sheet_library::sourced_back_stress_text(material, file.unit)},
        {"yield", sheet_library::sourced_yield_text(material)},
        {"uniform elongation", elongation_text(material.uniform_elongation)},
        {"edge stretch allowed", tables::sourced_edge_limit(file.job)},
        {"smallest bend",
         material.bend_limits.empty()
             ? "not known"
             : fmt::format(
                 "{} ({})", material::word_for(material.bend_grade), material.bend_source
             )},
    });
    return text + as_lines(material.note);
}

std::string hand_text(const case_file::CaseFile& file, const findings::HandCalculation& hand) {
    const job::Job& job = file.job;
    const bool is_mixed = job.blank.line.curve() == outline::Curve::mixed;
    const bool varies = !job.blank.flange_widths.is_empty() || !job.block.wall_angles.is_empty();
    const std::string largest_words = "; with the largest depth and wall angle of the line";
    const std::vector<std::vector<std::string>> lip_rows = rows_of_lip(file, hand);
    std::vector<std::vector<std::string>> rows{
        {"flat width, bend tangent to cut edge",
         tables::shown_layout_length(hand.flat_width, file.unit)},
        {"bend allowance", tables::shown_length(hand.bend_allowance, file.unit)},
        {"bend tangent to mould point", tables::shown_length(hand.mould_setback, file.unit)},
        {"edge stretch", percent_shown(hand.edge_stretch)},
        {"edge thickness", edge_thickness_text(file, hand)},
        {"stretch of the bend's outer fibre", percent_shown(std::expm1(hand.bend_strain))},
        {"springback of an ideal strip", degrees_text(hand.springback)},
        {"angle to cut the block to", block_angle_text(job, hand)},
    };
    rows.insert(rows.end(), lip_rows.begin(), lip_rows.end());
    return std::string("By hand (long flange away from its ends, no friction")
        + (is_mixed ? "; where the bend line is tightest" : "") + (varies ? largest_words : "")
        + "):\n" + as_columns(rows);
}

} // namespace flangewright::command_line
