#include "io/blank_template/lip_sheets.hpp"

#include "io/blank_template/lip_section.hpp"
#include "io/blank_template/plan_outline.hpp"
#include "io/blank_template/tool_marks.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::blank_template {

namespace {

using Eigen::Vector2d;
using outline::Profile;
using paper::Pen;
using paper::Sheet;

LipSection section_of(const TemplateRequest& request) {
    constexpr double web_shown = 30;
    return {request.job, -std::min(request.job.blank.web_width, web_shown)};
}

/// A length with arrows' places marked, `off` to the left of the way from one to the other.
void add_dimension(
    Sheet& sheet, const Vector2d& from, const Vector2d& to, double off, const std::string& words
) {
    constexpr double past = 1.5;
    constexpr double letters = 2.4;
    const Vector2d along = (to - from).normalized();
    const Vector2d left(-along.y(), along.x());
    const Vector2d side = off * left;
    const Vector2d beyond = (off > 0 ? past : -past) * left;
    sheet.add_line(Pen::dimension, from + side, to + side);
    for (const Vector2d& end : {from, to}) {
        sheet.add_line(Pen::dimension, end + 0.1 * side, end + side + beyond);
        const Vector2d tick = 0.7 * (along + left);
        sheet.add_line(Pen::dimension, end + side - tick, end + side + tick);
    }
    double turn = std::atan2(along.y(), along.x());
    if (std::abs(turn) > 0.5 * std::numbers::pi + 1e-6) { // never upside down
        turn += turn > 0 ? -std::numbers::pi : std::numbers::pi;
    }
    // Beyond the line as seen from what is measured; letters rise from their feet.
    const Vector2d away = off > 0 ? left : Vector2d(-left);
    const bool rise_away = away.dot(Vector2d(-std::sin(turn), std::cos(turn))) > 0;
    const Vector2d foot = (rise_away ? 1.2 : 1.2 + letters) * away;
    sheet.words.push_back({0.5 * (from + to) + side + foot, words, letters, turn, true});
}

/// Where a place of the section lies, in words.
std::string place_words(const Vector2d& place, units::LengthUnit unit) {
    return fmt::format(
        "{} past the bend line and {} below the block's face",
        tables::shown_length(place.x(), unit),
        tables::shown_length(-place.y(), unit)
    );
}

std::vector<std::string> nose_words(const TemplateRequest& request, const LipSection& section) {
    const job::ReturnBend& lip = *request.job.return_bend;
    return {
        "Lip's nose radius " + tables::shown_length(lip.nose_radius, request.unit)
            + fmt::format(
                "; its block is square to the flange (no undercut), the lip is driven to {:.3g} "
                "deg.",
                units::degrees(lip.angle)
            ),
        "The nose begins " + place_words(section.nose_begin(), request.unit) + ", and ends "
            + place_words(section.nose_end(), request.unit) + "."};
}

/// How the lip stood on the computer when the tools were gone.
std::string released_words(const TemplateRequest& request) {
    if (request.lip_angles.empty()) {
        return "No part was formed: how far the lip springs back is not told here.";
    }
    const auto [least, most] = std::ranges::minmax(request.lip_angles);
    return fmt::format(
        "As formed and released on the computer the lip stands at {:.1f} to {:.1f} deg to the "
        "flange.",
        units::degrees(least),
        units::degrees(most)
    );
}

/// Outer edge of a block outside the flange, clear of the centre of a concave line.
double outer_back(const TemplateRequest& request, double nose_end) {
    constexpr double behind = 12; // mm; the back may lie anywhere
    const job::Job& job = request.job;
    const double room = job.blank.line.concave_radius() - 2 * job.sheet.thickness;
    return std::max(nose_end, std::min(nose_end + job.return_bend->lip_depth + behind, room));
}

/// Flange depth, lip depth and the form block's height.
void add_dimensions(Sheet& sheet, const TemplateRequest& request, const LipSection& section) {
    const auto shown = [&](double length) { return tables::shown_length(length, request.unit); };
    const bool is_under = section.is_under_web();
    // Clear of a block outside the flange; under the web on the flange's outside.
    const double outer = section.outer_block().empty()
        ? 6.0
        : (section.outer_block()[3].at - section.nose_begin()).dot(section.out()) + 5;
    const Vector2d off = section.lower_corner() - section.upper_corner();
    add_dimension(
        sheet,
        section.upper_corner(),
        section.upper_corner() + off.dot(section.down()) * section.down(),
        outer,
        "flange depth " + shown(request.job.blank.flange_depth)
    );
    add_dimension(
        sheet,
        section.lower_corner(),
        section.lip_edge(),
        is_under ? 6 : -6,
        "lip depth " + shown(request.job.return_bend->lip_depth)
    );
    add_dimension(
        sheet,
        {section.back(), 0},
        {section.back(), section.foot()},
        -6,
        "block " + shown(-section.foot())
    );
}

} // namespace

Sheet lip_block_sheet(const TemplateRequest& request) {
    const job::Blank& blank = request.job.blank;
    const LipSection section = section_of(request);
    const Stretch whole{0, blank.line.length()};
    const double begin = section.nose_begin().x();
    const double end = section.nose_end().x();
    const bool is_under = section.is_under_web();
    const double near = is_under ? -blank.web_width : begin;
    const double far = is_under ? begin : outer_back(request, end);
    Sheet sheet;
    sheet.name = "lip block";
    for (const paper::Path& path : outline_between(
             Pen::lip_block,
             blank,
             beside_line(blank.line, whole, near),
             beside_line(blank.line, whole, far)
         )) {
        sheet.paths.push_back(path);
    }
    sheet.paths.push_back({Pen::lip_block, beside_line(blank.line, whole, end), false});
    sheet.paths.push_back({Pen::bend, beside_line(blank.line, whole, 0), false});
    add_middles(sheet, blank, std::min(near, 0.0), far);
    std::vector<std::string> head{
        is_under ? "Lip block: the form block's lower edge, seen from above"
                 : "Lip block, outside the flange, seen from above",
        request.job.title,
        "Long dashes: bend line. Full lines: where the lip's nose begins in the face that the "
        "flange lies on, and where it ends."};
    for (const std::string& words : nose_words(request, section)) {
        head.push_back(words);
    }
    head.emplace_back(
        is_under ? "Its back is drawn to the web's edge and may lie anywhere."
                 : "Its back may lie anywhere; it clamps the flange against the form block."
    );
    head.emplace_back(tool_caution);
    add_head(sheet, head);
    return sheet;
}

Sheet lip_section_sheet(const TemplateRequest& request) {
    const job::Job& job = request.job;
    const LipSection section = section_of(request);
    const double back = section.back();
    const double t = job.sheet.thickness;
    constexpr double backing = 10;
    Sheet sheet;
    sheet.name = "section with lip";
    sheet.paths.push_back({Pen::section, section.form_block(), true});
    if (!section.is_under_web()) {
        sheet.paths.push_back({Pen::lip_block, section.outer_block(), true});
    }
    sheet.paths.push_back({Pen::sheet, section.sheet(), true});
    const double edge = -job.block.backing_setback;
    sheet.paths.push_back(
        {Pen::section,
         {{{back, t}, 0}, {{edge, t}, 0}, {{edge, t + backing}, 0}, {{back, t + backing}, 0}},
         true}
    );
    add_dimensions(sheet, request, section);
    const auto shown = [&](double length) { return tables::shown_length(length, request.unit); };
    std::vector<std::string> head{
        "Section across both noses, with the lip, real size",
        job.title,
        "Nose radius " + shown(job.block.nose_radius)
            + fmt::format(", wall turned {:.3g} deg", units::degrees(job.block.wall_angle))
            + "; sheet " + shown(t) + ", backing set back " + shown(job.block.backing_setback)
            + "."};
    for (const std::string& words : nose_words(request, section)) {
        head.push_back(words);
    }
    head.push_back(released_words(request));
    head.emplace_back(tool_caution);
    add_head(sheet, head);
    return sheet;
}

} // namespace flangewright::blank_template
