#include "io/case_file/sections.hpp"
#include "io/case_file/tool_rules.hpp"

#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

const std::array<std::string, 2> side_words{"under the web", "away from the web"};

} // namespace

ReturnBendSection read_return_bend(TableReader& table) {
    ReturnBendSection lip;
    if (const auto word = table.word("side", side_words, Need::required)) {
        lip.side = *word == side_words[0] ? job::LipSide::under_web : job::LipSide::away_from_web;
    }
    lip.lip_depth = table.value(
        {.key = "lip_depth",
         .measure = Measure::length,
         .lowest = 1,
         .highest = 200,
         .reason = "from the outside of the lip's bend to the net edge, along the lip",
         .remedy = "check the unit against the drawing"}
    );
    lip.nose_radius = table.value(nose_radius_rule());
    lip.angle = table.value(
        {.key = "angle",
         .measure = Measure::angle,
         .lowest = 5,
         .highest = 90,
         .reason = "the lip is driven to it, from the flange; a wiper folds no further than square",
         .remedy = "write the degrees turned through, 90 for a square lip",
         .need = Need::optional}
    );
    lip.clearance = table.value(clearance_rule());
    lip.corner_radius = table.value(corner_radius_rule());
    table.finish();
    return lip;
}

} // namespace flangewright::case_file
