#include "io/case_file/sections.hpp"

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
    lip.nose_radius = table.value(
        {.key = "nose_radius",
         .measure = Measure::length,
         .lowest = 0.05,
         .highest = 200,
         .reason = "a sharp nose cuts the sheet",
         .remedy =
             "write the radius on the second block's edge, at least a quarter of the thickness"}
    );
    lip.angle = table.value(
        {.key = "angle",
         .measure = Measure::angle,
         .lowest = 5,
         .highest = 90,
         .reason = "the lip is driven to it, from the flange; a wiper folds no further than square",
         .remedy = "write the degrees turned through, 90 for a square lip",
         .need = Need::optional}
    );
    lip.clearance = table.value(
        {.key = "clearance",
         .lowest = 1.0,
         .highest = 5.0,
         .reason = "gap between wiper and block over sheet thickness; less than 1 squeezes the "
                   "sheet",
         .remedy = "divide the gap by the sheet thickness",
         .need = Need::optional}
    );
    lip.corner_radius = table.value(
        {.key = "corner_radius",
         .measure = Measure::length,
         .lowest = 0.2,
         .highest = 200,
         .reason = "a sharp corner scores the sheet",
         .remedy = "write the radius of the wiper's corner, 3 mm is usual",
         .need = Need::optional}
    );
    table.finish();
    return lip;
}

} // namespace flangewright::case_file
