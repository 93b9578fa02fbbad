#include "io/sheet_page/case_part.hpp"

#include "io/sheet_library/back_stress_text.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "io/sheet_library/yield_text.hpp"
#include "io/sheet_page/html.hpp"
#include "io/tables/edge_words.hpp"
#include "io/tables/pass_table.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <vector>

namespace flangewright::sheet_page {

namespace {

using tables::shown_layout_length;
using tables::shown_length;
using tables::shown_number;
using units::degrees;

std::string piece_words(const outline::Piece& piece, units::LengthUnit unit) {
    if (piece.curvature == 0) {
        return "line " + shown_layout_length(piece.length, unit);
    }
    const double radius = 1 / std::abs(piece.curvature);
    return fmt::format(
        "{} {} through {} deg",
        piece.curvature > 0 ? "concave" : "convex",
        shown_layout_length(radius, unit),
        shown_number(degrees(piece.length / radius), 1)
    );
}

std::string mixed_words(const outline::BendLine& line, units::LengthUnit unit) {
    constexpr std::size_t most_named = 12;
    const std::vector<outline::Piece> pieces = line.pieces();
    std::string words;
    if (pieces.size() > most_named) {
        words = fmt::format("curve of {} pieces", pieces.size());
        if (std::isfinite(line.concave_radius())) {
            words += ", concave to " + shown_layout_length(line.concave_radius(), unit);
        }
        if (std::isfinite(line.convex_radius())) {
            words += ", convex to " + shown_layout_length(line.convex_radius(), unit);
        }
    } else {
        for (const outline::Piece& piece : pieces) {
            words += (words.empty() ? "" : ", ") + piece_words(piece, unit);
        }
    }
    return words + "; " + shown_layout_length(line.length(), unit)
        + " long (where concave the flange must stretch, where convex it must shrink)";
}

std::string line_words(const outline::BendLine& line, units::LengthUnit unit) {
    if (line.curve() == outline::Curve::straight) {
        return "straight, " + shown_layout_length(line.length(), unit) + " long";
    }
    if (line.curve() == outline::Curve::mixed) {
        return mixed_words(line, unit);
    }
    const bool is_concave = line.curve() == outline::Curve::concave;
    return fmt::format(
        "{}, radius {}, sweep {} deg, {} long",
        is_concave ? "concave arc (the flange must stretch)"
                   : "convex arc (the flange must shrink)",
        shown_layout_length(line.radius(), unit),
        shown_number(degrees(line.sweep()), 1),
        shown_layout_length(line.length(), unit)
    );
}

std::string end_words(const job::Blank& blank) {
    const auto word = [](job::EndKind kind) {
        return kind == job::EndKind::free ? "cut" : "the part goes on (plane of symmetry)";
    };
    return blank.start == blank.end
        ? fmt::format("both: {}", word(blank.start))
        : fmt::format("start: {}; end: {}", word(blank.start), word(blank.end));
}

std::string drive_words(const job::Job& job, units::LengthUnit unit) {
    const std::string to_angle =
        fmt::format("driven to {} deg", shown_number(degrees(job.drive.angle), 1));
    if (job.drive.kind == job::DriveKind::leaf && !job.block.wall_angles.is_empty()) {
        return "leaf that turns about the nose, at each station to the wall's angle there";
    }
    if (job.drive.kind == job::DriveKind::leaf) {
        return "leaf that turns about the nose, " + to_angle;
    }
    return fmt::format(
        "wiper straight down, gap {} of the thickness, corner radius {}, {}",
        shown_number(job.drive.clearance, 2),
        shown_length(job.drive.corner_radius, unit),
        to_angle
    );
}

// Nothing for one even pass.
std::string order_row(const job::Drive& drive, units::LengthUnit unit) {
    const bool is_even = drive.order == job::DriveOrder::evenly;
    if (is_even && drive.passes.size() < 2) {
        return {};
    }
    std::string words = tables::pass_words(drive);
    for (const double angle : drive.passes) {
        words += (angle == drive.passes.front() ? " to " : ", ") + shown_number(degrees(angle), 1);
    }
    words += drive.passes.empty() ? "" : " deg";
    return row(
        "Driven", {is_even ? words : words + ", front " + shown_length(drive.front, unit) + " long"}
    );
}

std::string sheet_rows(const job::Job& job, units::LengthUnit unit) {
    const material::SheetMaterial& material = job.sheet.material;
    return row("Sheet", {safe(sheet_library::name_with_origin(material))})
        + row("Thickness", {shown_length(job.sheet.thickness, unit)})
        + row("Rolling direction",
              {shown_number(degrees(job.sheet.rolling_direction), 0) + " deg from the bend line"
               + (material.yield == nullptr ? " (makes no difference to this sheet's law)" : "")})
        + row("Stress-strain data",
              {fmt::format(
                  "{}, {}",
                  safe(material::word_for(material.curve_grade)),
                  safe(material.curve_source)
              )})
        + row("Back stress", {safe(sheet_library::sourced_back_stress_text(material, unit))})
        + row("Yield", {safe(sheet_library::sourced_yield_text(material))});
}

// What a value that varies is where; nothing for one value.
std::string along_words(
    const outline::Profile& profile,
    units::LengthUnit unit,
    const std::function<std::string(double)>& shown
) {
    std::string words;
    for (const outline::ProfilePoint& point : profile.points()) {
        words += words.empty() ? " at most; " : ", ";
        words += fmt::format(
            "{} at station {}", shown(point.value), shown_layout_length(point.station, unit)
        );
    }
    return words;
}

// A row for each kink of the drawing that is an arc here.
std::string kink_rows(const tables::RunFacts& facts) {
    std::string rows;
    for (const std::string& kink : facts.rounded_kinks) {
        rows += row("Rounded", {safe(kink)});
    }
    return rows;
}

std::string blank_rows(const tables::RunFacts& facts, const job::Job& job) {
    const job::Blank& blank = job.blank;
    const units::LengthUnit unit = facts.unit;
    return row("Bend line", {line_words(blank.line, unit)}) + kink_rows(facts)
        + row("Ends of the blank", {end_words(blank)})
        + row("Web, edge to bend tangent", {shown_layout_length(blank.web_width, unit)})
        + row("Flange depth wanted, outside face of web to net edge",
              {shown_layout_length(blank.flange_depth, unit)
               + (blank.flange_widths.is_empty() ? "" : " where the flange is deepest")})
        + row("Flat width, bend tangent to free edge",
              {shown_layout_length(blank.flange_width, unit)
               + along_words(
                   blank.flange_widths,
                   unit,
                   [unit](double width) { return shown_layout_length(width, unit); }
               )})
        + row("Trim allowance in that width", {shown_layout_length(blank.trim_allowance, unit)})
        + row("Finish of the free edge", {tables::edge_words(job)});
}

std::string block_rows(const job::Job& job, units::LengthUnit unit) {
    const job::Block& block = job.block;
    return row("Nose radius of the block", {shown_length(block.nose_radius, unit)})
        + row("Block turned through, face to wall",
              {shown_number(degrees(block.wall_angle), 1) + " deg"
               + along_words(
                   block.wall_angles,
                   unit,
                   [](double angle) { return shown_number(degrees(angle), 1) + " deg"; }
               )})
        + row("Backing stays behind the bend tangent by",
              {shown_length(block.backing_setback, unit)})
        + row("Friction on block and drive", {shown_number(block.friction, 2)})
        + row("Drive", {drive_words(job, unit)}) + order_row(job.drive, unit);
}

std::string lip_rows(const job::Job& job, units::LengthUnit unit) {
    if (!job.return_bend) {
        return {};
    }
    const job::ReturnBend& lip = *job.return_bend;
    const bool is_under = lip.side == job::LipSide::under_web;
    return row("Return lip", {is_under ? "under the web" : "away from the web"})
        + row("Lip depth wanted, outside of its bend to net edge",
              {shown_layout_length(lip.lip_depth, unit)})
        + row("Nose radius of the lip's block", {shown_length(lip.nose_radius, unit)})
        + row("Drive of the lip",
              {fmt::format(
                  "wiper along the block, gap {} of the thickness, corner radius {}, driven to {} "
                  "deg",
                  shown_number(lip.clearance, 2),
                  shown_length(lip.corner_radius, unit),
                  shown_number(degrees(lip.angle), 1)
              )});
}

} // namespace

std::string case_part(const tables::RunFacts& facts, const job::Job& job) {
    std::string content = "<table class=\"case\"><tbody>\n" + sheet_rows(job, facts.unit)
        + blank_rows(facts, job) + block_rows(job, facts.unit) + lip_rows(job, facts.unit)
        + "</tbody></table>\n";
    if (!job.sheet.material.note.empty()) {
        content += "<p class=\"note\">" + safe(job.sheet.material.note) + "</p>\n";
    }
    return section("case", "The case", content);
}

} // namespace flangewright::sheet_page
