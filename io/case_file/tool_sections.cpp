#include "io/case_file/sections.hpp"

#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;

const std::array<std::string, 2> drive_words{"wiper", "leaf"};

ValueRule angle_rule(const std::string& key, const std::string& reason) {
    return {
        .key = key,
        .measure = Measure::angle,
        .lowest = 5,
        .highest = 150,
        .reason = reason,
        .remedy = "write the degrees turned through, not the angle left between web and flange",
        .need = Need::optional};
}

// A value that may be left out: the default then, nothing when it is there but wrong.
std::optional<double> value_or(TableReader& table, const ValueRule& rule, double when_absent) {
    return table.has(rule.key) ? table.value(rule) : std::optional(when_absent);
}

} // namespace

BlockSection read_block(TableReader& table) {
    BlockSection block;
    block.nose_radius = table.value(
        {.key = "nose_radius",
         .measure = Measure::length,
         .lowest = 0.05,
         .highest = 200,
         .reason = "a sharp nose cuts the sheet",
         .remedy = "write the radius on the block's edge, at least a quarter of the thickness"}
    );
    block.wall_angle = value_or(
        table,
        angle_rule("wall_angle", "turned through from the block's face, 90 is square"),
        job::Block{}.wall_angle
    );
    block.backing_setback = value_or(
        table,
        {.key = "backing_setback",
         .measure = Measure::length,
         .lowest = 0,
         .highest = 500,
         .reason = "how far the backing's edge stays behind the bend tangent",
         .remedy = "write a length from the bend tangent back onto the web",
         .need = Need::optional},
        0
    );
    block.friction = value_or(
        table,
        {.key = "friction",
         .lowest = 0,
         .highest = 0.5,
         .reason = "the share of the push that resists sliding on block and drive",
         .remedy = "write about 0.1 for waxed or oiled sheet, 0.15 to 0.2 for dry sheet (common "
                   "practice, no source)",
         .need = Need::optional},
        0
    );
    table.finish();
    return block;
}

DriveSection read_drive(TableReader& table) {
    DriveSection drive;
    const std::optional<std::string> word = table.word("kind", drive_words, Need::required);
    if (!word) {
        return drive; // which keys belong to it is not known, so none is called unknown
    }
    drive.kind = *word == "leaf" ? job::DriveKind::leaf : job::DriveKind::wiper;
    drive.clearance = table
                          .value(
                              {.key = "clearance",
                               .lowest = 1.0,
                               .highest = 5.0,
                               .reason = "gap between drive and block over sheet thickness; less "
                                         "than 1 squeezes the sheet",
                               .remedy = "divide the gap by the sheet thickness",
                               .need = Need::optional}
                          )
                          .value_or(drive.clearance);
    drive.angle = table.value(angle_rule("angle", "the flange is driven to it, 90 is square"));
    if (drive.kind == job::DriveKind::wiper) {
        drive.corner_radius = table.value(
            {.key = "corner_radius",
             .measure = Measure::length,
             .lowest = 0.2,
             .highest = 200,
             .reason = "a sharp corner scores the sheet",
             .remedy = "write the radius of the wiper's corner, 3 mm is usual",
             .need = Need::optional}
        );
    } else if (table.has("corner_radius")) {
        table.object("corner_radius", "no corner_radius on a leaf", "delete it");
    }
    table.finish();
    return drive;
}

} // namespace flangewright::case_file
