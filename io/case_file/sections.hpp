// The sections of a case file as they are read, before they are looked at together.
#pragma once

#include "io/case_file/log_entry.hpp"
#include "io/case_file/opening_place.hpp"
#include "io/drawing/blank_outline.hpp"
#include "io/drawing/rounded_kink.hpp"
#include "io/key_file/table_reader.hpp"
#include "solver/job/job.hpp"

#include <optional>

namespace flangewright::case_file {

/// [sheet]. Empty values were missing or wrong and have been reported.
struct SheetSection {
    std::optional<material::SheetMaterial> material;
    std::optional<double> thickness;
    double rolling_direction = 0;
    std::optional<double> least_thickness; ///< as written, or what the largest thinning leaves
    bool is_by_name = false; ///< the material, out of the library
};
[[nodiscard]] SheetSection read_sheet(key_file::TableReader& table);

/// The key or section `material`: a name out of the library, or a sheet written out.
[[nodiscard]] std::optional<material::SheetMaterial>
read_sheet_material(key_file::TableReader& table);

/// [anneal] or [heat_treat]: the sheet it leaves. Empty: wrong, and reported.
[[nodiscard]] std::optional<material::SheetMaterial> read_heated_sheet(key_file::TableReader& table
);

/// One opening, and where it stands so that a problem lands on it.
template <typename Opening>
struct Written {
    Opening opening;
    OpeningPlace place;
};

/// A notch on a drawing, whose depth is known once the flat width is. Lengths in mm.
struct DrawnRelief {
    double station = 0; ///< of its middle
    double width = 0;
    double bottom = 0; ///< deepest place, past the bend tangent
    double mouth = 0; ///< shorter side's end, past the bend tangent
    OpeningPlace place;
};

/// What other layers of a drawing say of the blank.
struct DrawnBlank {
    bool has_outline = false; ///< a layer is named for it
    std::optional<drawing::BlankOutline> outline; ///< empty: wrong, and reported
    std::vector<Written<outline::Hole>> holes;
    std::vector<DrawnRelief> reliefs;
};

/// One piece of a line of several, and where it comes from so that a problem lands on it.
struct ChainPiece {
    outline::Piece piece;
    std::string name; ///< "piece 3", "the curve between points 3 and 4, near (120, 35) mm"
    std::optional<key_file::TableReader> table = {}; ///< of a piece written out
    std::string key = {}; ///< line, concave or convex; of a piece written out
};

/// [bend_line]. Exactly one of `radius` and `wall_radius` is set for an arc; `pieces` only for a
/// line of several, whose curve is mixed.
struct BendLineSection {
    std::optional<outline::Curve> curve;
    std::vector<ChainPiece> pieces;
    std::string pieces_key = "pieces"; ///< the key they come from
    std::vector<drawing::RoundedKink> rounded_kinks; ///< of points and drawings
    DrawnBlank drawn; ///< of drawings
    std::optional<double> length;
    std::optional<double> radius;
    std::optional<double> wall_radius;
    std::optional<double> sweep;
};
[[nodiscard]] BendLineSection read_bend_line(key_file::TableReader& table);
/// `pieces` of a chain; fewer than written when some are wrong and have been reported.
[[nodiscard]] std::vector<ChainPiece> read_pieces(key_file::TableReader& table);
/// A line as it is drawn; without pieces when something is wrong and has been reported.
struct LineOnDrawing {
    std::vector<ChainPiece> pieces;
    std::vector<drawing::RoundedKink> rounded_kinks;
    DrawnBlank blank = {};
};
/// The smooth curve through `points`, with arcs at its kinks if `round_kinks` is written.
[[nodiscard]] LineOnDrawing read_points(key_file::TableReader& table);
/// The line on a layer of a drawing file, and what its other layers say of the blank; same.
[[nodiscard]] LineOnDrawing read_drawn(key_file::TableReader& table);
/// `outline_layer`, `hole_layer`, `pin_layer` and `relief_layer` of a drawing; without a line they
/// are only known.
[[nodiscard]] DrawnBlank
read_drawn_blank(key_file::TableReader& table, const std::optional<drawing::PlacedLine>& line);
/// The strokes in mm on the layer that `key` names, of the drawing `file` names; `alone` says what
/// must stand on it and nothing else. Empty: wrong, and reported.
[[nodiscard]] std::optional<std::vector<drawing::Stroke>>
strokes_on_layer(key_file::TableReader& table, const std::string& key, const std::string& alone);
/// `round_kinks`; empty when it is not written, or wrong and reported.
[[nodiscard]] std::optional<double> read_round_kinks(key_file::TableReader& table);

/// A value at stations of the bend line, in place of one value: pairs of station and value. The
/// rule is the value's. Empty: wrong, and reported.
[[nodiscard]] std::optional<outline::Profile>
read_profile(key_file::TableReader& table, const key_file::ValueRule& rule);

/// One value, or a profile of which it is the largest; without points when nothing varies.
struct ValueAlong {
    std::optional<double> largest;
    outline::Profile profile;
};
[[nodiscard]] ValueAlong
read_value_along(key_file::TableReader& table, const key_file::ValueRule& rule);

/// `holes`, `notches` and `tabs` of [blank]; those that were wrong are left out and reported.
struct OpeningsSection {
    std::vector<Written<outline::Hole>> holes;
    std::vector<Written<outline::Notch>> notches;
    std::vector<Written<outline::Tab>> tabs;
};
[[nodiscard]] OpeningsSection read_openings(key_file::TableReader& table);

/// [blank]. Exactly one of depth and width is set, with a lip also both; none of both and no web
/// width when an outline is drawn.
struct BlankSection {
    std::optional<double> web_width;
    std::optional<double> flange_depth;
    std::optional<double> flat_width;
    outline::Profile widths; ///< of the one that is set, of both the width, its largest; without
                             ///< points: one value
    std::optional<double> trim_allowance;
    OpeningsSection openings;
    job::EndKind start = job::EndKind::free;
    job::EndKind end = job::EndKind::free;
    std::optional<material::EdgeFinish> edge_finish;
};
[[nodiscard]] BlankSection
read_blank(key_file::TableReader& table, bool has_drawn_outline, bool has_lip);

/// [trim]; all of it may be left out. Empty: the edge is finished as that of the blank.
struct TrimSection {
    std::optional<material::EdgeFinish> edge_finish;
};
[[nodiscard]] TrimSection read_trim(key_file::TableReader& table);

/// [block].
struct BlockSection {
    std::optional<double> nose_radius;
    std::optional<double> wall_angle;
    outline::Profile wall_angles; ///< wall_angle is the largest; without points: one value
    std::optional<double> backing_setback;
    std::optional<double> friction;
};
[[nodiscard]] BlockSection read_block(key_file::TableReader& table);

/// [drive]. Values not written stay empty where the default hangs on other sections.
struct DriveSection {
    std::optional<job::DriveKind> kind;
    double clearance = 1.05;
    std::optional<double> corner_radius;
    std::optional<double> angle;
    job::DriveOrder order = job::DriveOrder::evenly;
    std::vector<double> passes; ///< rising; empty: one pass
    std::optional<double> front;
};
[[nodiscard]] DriveSection read_drive(key_file::TableReader& table);

/// [return_bend]. Values not written stay empty where the default hangs on other sections.
struct ReturnBendSection {
    std::optional<job::LipSide> side;
    std::optional<double> lip_depth;
    std::optional<double> nose_radius;
    std::optional<double> angle;
    std::optional<double> clearance;
    std::optional<double> corner_radius;
};
[[nodiscard]] ReturnBendSection read_return_bend(key_file::TableReader& table);

/// [run]; all of it may be left out.
struct RunSection {
    std::vector<job::StepKind> steps{job::StepKind::bend_down, job::StepKind::release};
    bool has_good_steps = true; ///< false: they were wrong and have been reported
    job::Accuracy accuracy = job::Accuracy::normal;
    double close_share = 0.8;
};
[[nodiscard]] RunSection read_run(key_file::TableReader& table);

/// [scatter]; being there asks for the bands, all of it may be left out.
[[nodiscard]] job::Scatter read_scatter(key_file::TableReader& table);

/// [log]; all of it may be left out.
[[nodiscard]] LogEntry read_log(key_file::TableReader& table);

} // namespace flangewright::case_file
