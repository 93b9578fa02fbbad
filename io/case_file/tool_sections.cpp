#include "io/case_file/sections.hpp"
#include "io/case_file/tool_rules.hpp"

#include <algorithm>
#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;

const std::array<std::string, 2> drive_words{"wiper", "leaf"};

const std::array<std::string, 4> order_words{"evenly", "from start", "from end", "ends first"};
constexpr std::array orders{
    job::DriveOrder::evenly,
    job::DriveOrder::from_start,
    job::DriveOrder::from_end,
    job::DriveOrder::ends_first};

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

void read_passes(TableReader& table, DriveSection& drive) {
    constexpr std::size_t most_passes = 20;
    constexpr double least_rise = 0.0017; // rad, a tenth of a degree
    const std::optional<std::vector<double>> passes =
        table.values(angle_rule("passes", "flange angle after each pass, the last one is angle"));
    if (!passes) {
        return; // not there, or told already
    }
    const auto falls = [](double one, double next) { return next < one + least_rise; };
    const bool is_rising = std::ranges::adjacent_find(*passes, falls) == passes->end();
    if (passes->empty() || passes->size() > most_passes || !is_rising) {
        table.object(
            "passes",
            "1 to 20 angles, each larger than the one before",
            "write the angle the flange has after each pass, such as [30, 60, 90]"
        );
        return;
    }
    drive.passes = *passes;
}

// How the flange is worked along the line.
void read_order(TableReader& table, DriveSection& drive) {
    if (const auto word = table.word("order", order_words, Need::optional)) {
        const auto found = std::ranges::find(order_words, *word);
        drive.order = orders.at(static_cast<std::size_t>(found - order_words.begin()));
    }
    read_passes(table, drive);
    if (drive.order == job::DriveOrder::evenly && table.has("front")) {
        table.object(
            "front",
            "no front where the flange is driven evenly",
            "delete it, or write order = \"ends first\""
        );
        return;
    }
    drive.front = table.value(
        {.key = "front",
         .measure = Measure::length,
         .lowest = 1,
         .highest = 3000,
         .reason = "length over which the flange goes from not yet driven to driven in a pass",
         .remedy = "write twice the flange width or more",
         .need = Need::optional}
    );
}

void read_wall(TableReader& table, BlockSection& block) {
    const ValueRule rule =
        angle_rule("wall_angle", "turned through from the block's face, 90 is square");
    if (!table.has(rule.key)) {
        block.wall_angle = job::Block{}.wall_angle;
        return;
    }
    const ValueAlong read = read_value_along(table, rule);
    block.wall_angle = read.largest;
    block.wall_angles = read.profile;
}

} // namespace

BlockSection read_block(TableReader& table) {
    BlockSection block;
    block.nose_radius = table.value(nose_radius_rule());
    read_wall(table, block);
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
    drive.clearance = table.value(clearance_rule()).value_or(drive.clearance);
    drive.angle = table.value(angle_rule("angle", "the flange is driven to it, 90 is square"));
    if (drive.kind == job::DriveKind::wiper) {
        drive.corner_radius = table.value(corner_radius_rule());
    } else if (table.has("corner_radius")) {
        table.object("corner_radius", "no corner_radius on a leaf", "delete it");
    }
    read_order(table, drive);
    table.finish();
    return drive;
}

} // namespace flangewright::case_file
