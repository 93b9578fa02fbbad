// What every input of a reader must lead to: a sound answer or problems told in our own words.
#pragma once

#include <string_view>

namespace flangewright::fuzz {

/// Reads the text as a case file. Units: none. Source: docs/case-file.md.
/// Fails: InternalError when the answer is not sound.
void feed_case(std::string_view text);

/// Reads the text as a sheet written out, as in [sheet.material], and asks its curve for stresses.
/// Units, source, fails: as feed_case().
void feed_material(std::string_view text);

/// Reads the text as a drawing and joins what its layer BEND holds; what its layers BLANK, HOLES
/// and RELIEF hold is seen from there.
/// Units, source, fails: as feed_case().
void feed_drawing(std::string_view text);

} // namespace flangewright::fuzz
