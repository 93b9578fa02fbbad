#include "io/case_file/case_file.hpp"

#include "io/case_file/chain_check.hpp"
#include "io/case_file/geometry_check.hpp"
#include "io/case_file/openings_check.hpp"
#include "io/case_file/rolling_check.hpp"
#include "io/key_file/document.hpp"
#include "io/sheet_library/softer_tempers.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

using key_file::Document;
using key_file::Need;
using key_file::Reading;
using key_file::TableReader;

const std::array<std::string, 2> unit_words{"mm", "in"};

// Tables of a case, alive until the last check has named its key.
struct Tables {
    std::optional<TableReader> sheet;
    std::optional<TableReader> bend_line;
    std::optional<TableReader> blank;
    std::optional<TableReader> block;
    std::optional<TableReader> drive;
    std::optional<TableReader> run;
    std::optional<TableReader> return_bend;
    std::optional<TableReader> trim;
    std::optional<TableReader> scatter;
    std::optional<TableReader> anneal;
    std::optional<TableReader> heat_treat;
    std::optional<TableReader> log;
};

Tables open_tables(TableReader& root) {
    return {
        root.table("sheet", Need::required),
        root.table("bend_line", Need::required),
        root.table("blank", Need::required),
        root.table("block", Need::required),
        root.table("drive", Need::required),
        root.table("run", Need::optional),
        root.table("return_bend", Need::optional),
        root.table("trim", Need::optional),
        root.table("scatter", Need::optional),
        root.table("anneal", Need::optional),
        root.table("heat_treat", Need::optional),
        root.table("log", Need::optional)};
}

TableReader* pointer_to(std::optional<TableReader>& table) {
    return table ? &*table : nullptr;
}

// Outline and holes of the drawing stand beside what [blank] says; reliefs wait for the flat width.
void take_drawn(ReadCase& parts) {
    const DrawnBlank& drawn = parts.bend_line.drawn;
    if (drawn.outline) {
        parts.blank.web_width = drawn.outline->web_width;
        parts.blank.flat_width = drawn.outline->flat_width;
        parts.blank.widths = drawn.outline->flat_widths;
    }
    auto& holes = parts.blank.openings.holes;
    holes.insert(holes.end(), drawn.holes.begin(), drawn.holes.end());
}

ReadCase read_sections(Tables& tables) {
    ReadCase parts;
    parts.bend_line_table = pointer_to(tables.bend_line);
    parts.blank_table = pointer_to(tables.blank);
    parts.block_table = pointer_to(tables.block);
    parts.drive_table = pointer_to(tables.drive);
    parts.run_table = pointer_to(tables.run);
    parts.return_bend_table = pointer_to(tables.return_bend);
    parts.trim_table = pointer_to(tables.trim);
    if (tables.sheet) {
        parts.sheet = read_sheet(*tables.sheet);
    }
    if (tables.bend_line) {
        parts.bend_line = read_bend_line(*tables.bend_line);
    }
    if (tables.blank) {
        parts.blank = read_blank(
            *tables.blank, parts.bend_line.drawn.has_outline, tables.return_bend.has_value()
        );
        take_drawn(parts);
    }
    if (tables.block) {
        parts.block = read_block(*tables.block);
    }
    if (tables.drive) {
        parts.drive = read_drive(*tables.drive);
    }
    if (tables.anneal) {
        parts.annealed = read_heated_sheet(*tables.anneal);
    }
    if (tables.heat_treat) {
        parts.heat_treated = read_heated_sheet(*tables.heat_treat);
    }
    if (tables.run) {
        parts.run = read_run(*tables.run);
    }
    if (tables.return_bend) {
        parts.return_bend = read_return_bend(*tables.return_bend);
    }
    if (tables.trim) {
        parts.trim = read_trim(*tables.trim);
    }
    return parts;
}

outline::BendLine line_of(const ReadCase& parts) {
    const BendLineSection& line = parts.bend_line;
    if (line.curve == outline::Curve::mixed) {
        std::vector<outline::Piece> pieces;
        for (const ChainPiece& each : line.pieces) {
            pieces.push_back(each.piece);
        }
        return outline::BendLine::chain(pieces);
    }
    if (line.curve == outline::Curve::straight) {
        return outline::BendLine::straight(*line.length);
    }
    const double radius = line.radius ? *line.radius
                                      : *line.wall_radius
            - outline_offset(*line.curve, *parts.block.nose_radius, *parts.block.wall_angle);
    return outline::BendLine::arc(radius, *line.sweep, *line.curve);
}

// A wall radius of a convex block less its nose can leave nothing of the bend line.
bool has_line(ReadCase& parts) {
    if (parts.bend_line.wall_radius && parts.bend_line.curve == outline::Curve::convex
        && *parts.bend_line.wall_radius <= *parts.block.nose_radius + 2 * *parts.sheet.thickness) {
        parts.bend_line_table->object(
            "wall_radius",
            "more than the nose radius and two thicknesses (the bend line lies inside the wall)",
            "take a larger wall radius or a smaller nose radius"
        );
        return false;
    }
    return true;
}

job::Drive drive_of(const ReadCase& parts) {
    constexpr double square = 0.5 * std::numbers::pi;
    const double wall = *parts.block.wall_angle;
    job::Drive drive;
    drive.kind = *parts.drive.kind;
    drive.clearance = parts.drive.clearance;
    if (drive.kind == job::DriveKind::wiper) {
        drive.corner_radius =
            parts.drive.corner_radius.value_or(std::max(2 * *parts.sheet.thickness, 3.0));
        drive.angle = parts.drive.angle.value_or(std::min(wall, square));
    } else {
        drive.angle = parts.drive.angle.value_or(wall);
    }
    drive.order = parts.drive.order;
    drive.passes = parts.drive.passes;
    return drive;
}

job::ReturnBend return_bend_of(const ReadCase& parts) {
    const ReturnBendSection& read = parts.return_bend;
    job::ReturnBend lip;
    lip.side = *read.side;
    lip.lip_depth = *read.lip_depth;
    lip.nose_radius = *read.nose_radius;
    lip.angle = read.angle.value_or(lip.angle);
    lip.clearance = read.clearance.value_or(lip.clearance);
    lip.corner_radius = read.corner_radius.value_or(std::max(2 * *parts.sheet.thickness, 3.0));
    return lip;
}

// Flat widths from the depths on the drawing.
void develop(job::Job& job, const outline::Profile& depths) {
    if (!job.return_bend) {
        job.blank.flange_width = findings::developed_flange_width(job);
        job.blank.flange_widths = findings::developed_flange_widths(job, depths);
        if (!job.blank.flange_widths.is_empty()) {
            job.blank.flange_width = job.blank.flange_widths.most();
        }
        return;
    }
    const findings::LipDevelopment lip = findings::develop_lip(job);
    job.blank.lip_width = lip.width;
    job.blank.flange_width = lip.bend_begin + lip.width + job.blank.trim_allowance;
}

// A flat width stated beside the depth: the lip begins where it would, and is as wide as that
// leaves it.
void take_width_with_lip(job::Job& job, const BlankSection& blank) {
    const double begin = job.blank.lip_begin();
    job.blank.flange_width = *blank.flat_width;
    job.blank.flange_widths = blank.widths;
    job.blank.lip_width = *blank.flat_width - job.blank.trim_allowance - begin;
}

outline::Openings openings_of(const OpeningsSection& read) {
    outline::Openings openings;
    for (const auto& hole : read.holes) {
        openings.holes.push_back(hole.opening);
    }
    for (const auto& notch : read.notches) {
        openings.notches.push_back(notch.opening);
    }
    for (const auto& tab : read.tabs) {
        openings.tabs.push_back(tab.opening);
    }
    return openings;
}

// Only when every section was read without a problem.
job::Job job_of(const ReadCase& parts) {
    job::Job job;
    job.sheet = {
        *parts.sheet.material,
        *parts.sheet.thickness,
        parts.sheet.rolling_direction,
        parts.sheet.least_thickness};
    if (parts.sheet.is_by_name) {
        job.sheet.softer_tempers = sheet_library::softer_tempers_of(*parts.sheet.material);
    }
    job.blank.line = line_of(parts);
    job.blank.web_width = *parts.blank.web_width;
    job.blank.trim_allowance = *parts.blank.trim_allowance;
    job.blank.start = parts.blank.start;
    job.blank.end = parts.blank.end;
    job.blank.openings = openings_of(parts.blank.openings);
    job.blank.edge_finish = parts.blank.edge_finish;
    job.trimmed_edge_finish =
        parts.trim.edge_finish ? parts.trim.edge_finish : parts.blank.edge_finish;
    job.block.nose_radius = *parts.block.nose_radius;
    job.block.wall_angle = *parts.block.wall_angle;
    job.block.wall_angles = parts.block.wall_angles;
    job.block.backing_setback = *parts.block.backing_setback;
    job.block.friction = *parts.block.friction;
    job.drive = drive_of(parts);
    if (parts.return_bend_table != nullptr) {
        job.return_bend = return_bend_of(parts);
    }
    job.annealed = parts.annealed.value_or(job.sheet.material);
    job.heat_treated = parts.heat_treated.value_or(job.sheet.material);
    if (parts.blank.flange_depth) {
        job.blank.flange_depth = *parts.blank.flange_depth;
        develop(job, parts.blank.flat_width ? outline::Profile{} : parts.blank.widths);
        if (parts.blank.flat_width) {
            take_width_with_lip(job, parts.blank);
        }
    } else {
        job.blank.flange_width = *parts.blank.flat_width;
        job.blank.flange_widths = parts.blank.widths;
    }
    if (job.drive.order != job::DriveOrder::evenly) {
        job.drive.front = parts.drive.front.value_or(2 * job.blank.flange_width);
    }
    return job;
}

void read_head(TableReader& root, CaseFile& result) {
    if (const auto unit = root.word("unit", unit_words, Need::optional)) {
        result.unit = *unit == "in" ? units::LengthUnit::inch : units::LengthUnit::millimetre;
    }
    root.reading().unit = result.unit;
    constexpr std::size_t longest_title = 200;
    result.job.title = root.text("title", Need::required).value_or("");
    if (root.holds_text("title")
        && (result.job.title.empty() || result.job.title.size() > longest_title)) {
        root.object("title", "1 to 200 letters", "say in a line what the part is");
    }
}

CaseFileResult case_from(const Document& document, Reading& reading) {
    TableReader root(reading, document.root, {1, 1}, "");
    CaseFile result;
    read_head(root, result);
    Tables tables = open_tables(root);
    root.finish();
    ReadCase parts = read_sections(tables);
    const std::optional<job::Scatter> scatter =
        tables.scatter ? std::optional(read_scatter(*tables.scatter)) : std::nullopt;
    if (tables.log) {
        result.log = read_log(*tables.log);
    }
    check_together(parts);
    reading.report_unknown();
    if (reading.is_clean() && has_line(parts)) {
        const std::string title = result.job.title;
        result.job = job_of(parts);
        settle_reliefs(parts, result.job);
        result.job.title = title;
        result.job.steps = parts.run.steps;
        result.job.accuracy = parts.run.accuracy;
        result.job.close_share = parts.run.close_share;
        result.job.scatter = scatter;
        result.rounded_kinks = parts.bend_line.rounded_kinks;
        result.states_depth = parts.blank.flange_depth.has_value();
        result.flange_depths = result.states_depth && !parts.blank.flat_width ? parts.blank.widths
                                                                              : outline::Profile{};
        result.states_rolling_direction = tables.sheet->has("rolling_direction");
        check_job(parts, result.job);
        check_rolling_direction(*tables.sheet, result.job);
        if (parts.bend_line.curve == outline::Curve::mixed && reading.is_clean()) {
            check_chain(parts, result.job);
        }
    }
    if (!reading.is_clean()) {
        return tl::unexpected(reading.sorted_problems());
    }
    return result;
}

CaseFileResult case_from(const Document& document) {
    Reading reading(document.file);
    return case_from(document, reading);
}

} // namespace

std::vector<key_file::AskedKey> keys_asked(std::string_view text, const std::string& file) {
    const Result<Document, InputProblem> document = key_file::document_from(text, file);
    Reading reading(file);
    if (document) {
        static_cast<void>(case_from(*document, reading));
    }
    return reading.asked();
}

CaseFileResult read_case_text(std::string_view text, const std::string& file) {
    const Result<Document, InputProblem> document = key_file::document_from(text, file);
    if (!document) {
        return tl::unexpected(std::vector<InputProblem>{document.error()});
    }
    return case_from(*document);
}

CaseFileResult read_case_file(const std::filesystem::path& path) {
    const Result<Document, InputProblem> document = key_file::read_document(path);
    if (!document) {
        return tl::unexpected(std::vector<InputProblem>{document.error()});
    }
    return case_from(*document);
}

} // namespace flangewright::case_file
