// What no single key can say: whether blank, bend line, block and drive fit each other.
#pragma once

#include "io/case_file/sections.hpp"

namespace flangewright::case_file {

/// The sections with their readers, so that a problem lands on the key it belongs to.
struct ReadCase {
    key_file::TableReader* bend_line_table = nullptr;
    key_file::TableReader* blank_table = nullptr;
    key_file::TableReader* block_table = nullptr;
    key_file::TableReader* drive_table = nullptr;
    key_file::TableReader* run_table = nullptr; ///< none when there is no such section
    key_file::TableReader* return_bend_table = nullptr; ///< same
    key_file::TableReader* trim_table = nullptr; ///< same
    SheetSection sheet;
    BendLineSection bend_line;
    BlankSection blank;
    BlockSection block;
    DriveSection drive;
    ReturnBendSection return_bend;
    TrimSection trim;
    RunSection run;
    std::optional<material::SheetMaterial> annealed;
    std::optional<material::SheetMaterial> heat_treated;
};

/// Checks that need only what is written; each is left out when one of its values is missing.
void check_together(ReadCase& parts);

/// Checks of the finished job, once the flat width is known.
void check_job(ReadCase& parts, const job::Job& job);

/// Whether a nose, of the section of `table`, is round enough for the sheet; left out when one of
/// both is missing. Units: mm.
void check_nose(
    const std::optional<double>& radius,
    const std::optional<double>& thickness,
    key_file::TableReader* table
);

/// A length for a message about this section, in the user's unit. Units: mm.
[[nodiscard]] std::string shown_length(double length, key_file::TableReader& table);

/// A problem of web_width, flat_width or flange_depth, on its key, or on outline_layer when the
/// outline is drawn. Without words of its own for what was found it is the value.
void object_to_size(
    ReadCase& parts,
    const std::string& key,
    const std::string& allowed,
    const std::string& remedy,
    const std::optional<std::string>& found = std::nullopt
);
/// The bend line radius that nose, gap and the drive's corner need inside a concave curve.
/// Units: mm.
[[nodiscard]] double least_concave_radius(const job::Job& job);

/// Radius of the block's outline seen from above less the bend tangent line's radius; the nose
/// reaches furthest out where it is square. Units: mm, rad.
[[nodiscard]] double outline_offset(outline::Curve curve, double nose_radius, double wall_angle);

} // namespace flangewright::case_file
