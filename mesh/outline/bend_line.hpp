// The bend line in plan: the inside tangent line where the sheet leaves the web and starts to bend.
#pragma once

#include <Eigen/Core>

#include <vector>

namespace flangewright::outline {

/// Which way the line curves as seen from the flange. A line of several curvatures is mixed.
enum class Curve { straight, concave, convex, mixed };

/// A part of the line with one curvature.
struct Piece {
    double length = 0; ///< mm
    double curvature = 0; ///< 1/mm: positive concave, negative convex, 0 straight
};

/// A point of the flat blank in the line's own coordinates.
struct LinePosition {
    double station = 0; ///< arc length along the bend line from its start, mm
    double distance = 0; ///< square to the line, positive toward the flange, mm
};

/// Directions at a station, unit vectors in the web plane.
struct LineFrame {
    Eigen::Vector3d point; ///< on the bend line, z = 0
    Eigen::Vector3d tangent; ///< along the line, station growing
    Eigen::Vector3d outward; ///< square to the line, toward the flange
};

/// Straight and circular pieces that follow each other without a kink. The middle of the line lies
/// at the origin with the flange toward +y and the station growing toward +x; tangent x outward =
/// +z. Beyond its ends the line goes on as its end pieces do.
class BendLine {
public:
    /// Units: length in mm. Source: derived here (docs/theory.md, "Coordinates"). Fails: never.
    static BendLine straight(double length);
    /// Units: radius in mm, sweep in rad. `curve` is concave or convex. Concave: the flange lies
    /// on the side of the centre and must stretch. Source: as straight(). Fails: never.
    static BendLine arc(double radius, double sweep, Curve curve);
    /// Units: mm, 1/mm. At least one piece, each with a length. Source: as straight(). Fails:
    /// never.
    static BendLine chain(const std::vector<Piece>& pieces);

    [[nodiscard]] double length() const { return length_; }
    [[nodiscard]] std::vector<Piece> pieces() const;
    /// Mixed when curvatures differ by more than rounding.
    [[nodiscard]] Curve curve() const;
    /// At a station, 1/mm; where two pieces meet, that of the later one.
    [[nodiscard]] double curvature(double station) const;
    /// Of the smallest concave radius; without a concave piece of the smallest convex one; 0 when
    /// straight. 1/mm.
    [[nodiscard]] double tightest_curvature() const;
    /// Smallest radius of the concave pieces in mm; infinity without any.
    [[nodiscard]] double concave_radius() const;
    /// Smallest radius of the convex pieces in mm; infinity without any.
    [[nodiscard]] double convex_radius() const;
    /// Smallest radius in mm, concave or convex; infinity for a straight line.
    [[nodiscard]] double radius() const;
    /// Turns of all pieces added up by their size, rad; 0 for a straight line.
    [[nodiscard]] double sweep() const;
    /// Largest turn between any two stations, rad: turns to either side take each other back.
    [[nodiscard]] double largest_turn() const;

    /// Frame at a station (also beyond the ends).
    [[nodiscard]] LineFrame frame(double station) const;
    /// Point of the web plane at station and distance.
    [[nodiscard]] Eigen::Vector3d point(const LinePosition& position) const;
    /// The nearest foot on the line for any point of space; its height is ignored. The inverse of
    /// point() wherever no other part of the line is nearer.
    [[nodiscard]] LinePosition locate(const Eigen::Vector3d& point) const;

private:
    /// A piece where it lies in the plane, described from its middle.
    struct Placed {
        Piece piece;
        double middle = 0; ///< station
        double direction = 0; ///< of the tangent, from +x
        Eigen::Vector2d point = Eigen::Vector2d::Zero();
        Eigen::Vector2d tangent = Eigen::Vector2d::UnitX();
        double half_sweep_cosine = 1;

        [[nodiscard]] double begin() const { return middle - 0.5 * piece.length; }
        [[nodiscard]] double end() const { return middle + 0.5 * piece.length; }
        [[nodiscard]] Eigen::Vector2d point_at(double from_middle) const;
        [[nodiscard]] Eigen::Vector2d in_frame(const Eigen::Vector2d& of) const;
        [[nodiscard]] LinePosition foot(const Eigen::Vector2d& local) const;
    };

    void place(std::size_t index, double direction, double from_middle, const Eigen::Vector2d& at);
    [[nodiscard]] const Placed& at(double station) const;
    [[nodiscard]] const Placed& nearest(const Eigen::Vector2d& point) const;
    [[nodiscard]] double separation(std::size_t index, const Eigen::Vector2d& point) const;

    std::vector<Placed> placed_;
    double length_ = 0;
};

} // namespace flangewright::outline
