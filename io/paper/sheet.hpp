// A drawing at real size: lines, circles and words on a plane, y upward.
#pragma once

#include <Eigen/Core>

#include <string>
#include <vector>

namespace flangewright::paper {

/// What is drawn; each kind has its own layer and look.
enum class Pen {
    cut, ///< outline of the blank as it is cut
    net, ///< outline that forms to the drawing's depth
    bend, ///< bend line: the bend tangent on the web's side
    tangent, ///< bend tangent on the flange's side
    station,
    hole, ///< holes, their centres
    grain,
    middle, ///< where the part goes on beyond the drawing
    form_block,
    backing,
    section, ///< tools cut across
    sheet, ///< the sheet in that section
    lip_block, ///< the block whose nose turns a lip
    dimension, ///< dimension lines
    text,
};

/// How a kind looks.
struct PenLook {
    std::string layer; ///< plain capital letters
    double width = 0.2; ///< mm
    std::vector<double> dashes = {}; ///< on, off, ... in mm; none: full
    int colour = 7; ///< number of the standard drawing colours; from memory
};

/// Units: mm. Source: own choice. Fails: never.
[[nodiscard]] const PenLook& look_of(Pen pen);

/// All kinds, in their order. Units, source: none needed. Fails: never.
[[nodiscard]] const std::vector<Pen>& all_pens();

/// A corner of a path. `bulge` belongs to the part that begins there: tangent of a quarter of its
/// turn, positive to the left; 0 is straight.
struct Vertex {
    Eigen::Vector2d at = Eigen::Vector2d::Zero();
    double bulge = 0;
};

/// Straight lines and arcs one after the other.
struct Path {
    Pen pen = Pen::cut;
    std::vector<Vertex> vertices;
    bool is_closed = false;
};

/// A full circle.
struct Circle {
    Pen pen = Pen::hole;
    Eigen::Vector2d centre = Eigen::Vector2d::Zero();
    double radius = 0;
};

/// A line of words.
struct Words {
    Eigen::Vector2d at = Eigen::Vector2d::Zero(); ///< left end of the base line, or its middle
    std::string text;
    double height = 2.8; ///< of the letters' body, mm
    double turn = 0; ///< rad, to the left
    bool is_centred = false;
};

/// Lower left and upper right corner.
struct Extent {
    Eigen::Vector2d low = Eigen::Vector2d::Zero();
    Eigen::Vector2d high = Eigen::Vector2d::Zero();

    [[nodiscard]] Eigen::Vector2d size() const { return high - low; }
};

/// One drawing. Lengths in mm.
struct Sheet {
    std::string name; ///< "blank"
    std::vector<Path> paths;
    std::vector<Circle> circles;
    std::vector<Words> words;

    /// A straight line. Units: mm. Source: none needed. Fails: never.
    void add_line(Pen pen, const Eigen::Vector2d& from, const Eigen::Vector2d& to);
    /// All of another drawing, moved. Units: mm. Source: none needed. Fails: never.
    void add(const Sheet& other, const Eigen::Vector2d& by);
    /// Of all that is drawn; words by a guess of their width. Units: mm. Source: common practice,
    /// no source (0.6 of the height per letter). Fails: an empty drawing is a caller's bug.
    [[nodiscard]] Extent extent() const;
};

/// The path as points, arcs by chords that miss them by `within` at most. Of a closed path the
/// first point comes again. Units: mm. Source: plane geometry. Fails: never.
[[nodiscard]] std::vector<Eigen::Vector2d> flattened(const Path& path, double within);

/// Radius of the arc of a bulge between two points. Units: mm. Source: plane geometry. Fails:
/// infinite for a straight part.
[[nodiscard]] double
bulge_radius(const Eigen::Vector2d& from, const Eigen::Vector2d& to, double bulge);

/// Drawings beneath one another, each in its own size, the first where it is. Units: mm. Source:
/// none needed. Fails: never.
[[nodiscard]] Sheet stacked(const std::vector<Sheet>& sheets, double gap);

} // namespace flangewright::paper
