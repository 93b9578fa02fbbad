#include "io/coupon/template_drawing.hpp"

#include "io/paper/svg_marks.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string_view>
#include <utility>

namespace flangewright::coupon {

namespace {

using outline::BendLine;

constexpr double margin = 12; // mm round the blank
constexpr double head = 46; // mm above it, for text and bars
constexpr double least_width = 160; // mm: both bars and the text beside them

/// Where a point of the web plane lies on the sheet of paper: y grows downward there.
class Paper {
public:
    Paper(const BendLine& line, const TestFlange& flange) : line_(line) {
        constexpr int n = 400;
        for (int i = 0; i <= n; ++i) {
            for (const double distance : {-flange.web_width, flange.flat_width}) {
                const Eigen::Vector3d at = line.point({line.length() * i / n, distance});
                least_ = least_.cwiseMin(at);
                most_ = most_.cwiseMax(at);
            }
        }
    }

    [[nodiscard]] Eigen::Vector2d at(double station, double distance) const {
        const Eigen::Vector3d point = line_.point({station, distance});
        return {point.x() - least_.x() + margin, most_.y() - point.y() + head + margin};
    }
    [[nodiscard]] double width() const {
        return std::max(most_.x() - least_.x() + 2 * margin, least_width);
    }
    [[nodiscard]] double height() const { return most_.y() - least_.y() + 2 * margin + head; }

    /// Turn of text that reads along the line, degrees clockwise.
    [[nodiscard]] double turn(double station) const {
        const Eigen::Vector3d tangent = line_.frame(station).tangent;
        return -units::degrees(std::atan2(tangent.y(), tangent.x()));
    }

private:
    const BendLine& line_;
    Eigen::Vector3d least_ = Eigen::Vector3d::Constant(std::numeric_limits<double>::max());
    Eigen::Vector3d most_ = -least_;
};

/// How lines and text of a kind look: attributes, as not every printer's program knows style
/// sheets.
std::string look(std::string_view kind) {
    constexpr std::array looks{
        std::pair("bend-line", " stroke-dasharray=\"6 1.5\""),
        std::pair("block", " stroke-dasharray=\"6 1.5 1 1.5\""),
        std::pair("step", " stroke-dasharray=\"1 1\""),
        std::pair("title", " font-size=\"4.5\""),
        std::pair("note", " font-size=\"2.8\""),
        std::pair("number", " font-size=\"2\" text-anchor=\"middle\""),
        std::pair("step-words", " font-size=\"2.8\" text-anchor=\"middle\"")};
    for (const auto& [name, attributes] : looks) {
        if (kind == name) {
            return fmt::format("class=\"{}\"{}", kind, attributes);
        }
    }
    return fmt::format("class=\"{}\"", kind);
}

/// The line's arcs at a distance from it. All turn to the left, seen on paper, too.
std::string arcs(const Paper& paper, const BendLine& line, const char* id, double distance) {
    Eigen::Vector2d at = paper.at(0, distance);
    std::string path = fmt::format("M {:.3f} {:.3f}", at.x(), at.y());
    double station = 0;
    for (const outline::Piece& piece : line.pieces()) {
        station += piece.length;
        const double radius = 1 / piece.curvature - distance;
        at = paper.at(station, distance);
        path += fmt::format(" A {0:.3f} {0:.3f} 0 0 0 {1:.3f} {2:.3f}", radius, at.x(), at.y());
    }
    return fmt::format("<path id=\"{}\" {} d=\"{}\"/>\n", id, look(id), path);
}

std::string head_text(const job::Job& coupon) {
    const double y = 8;
    std::string text =
        paper::svg_words({margin, y}, 0, look("title"), "Test flange, radius falling in steps");
    text += paper::svg_words(
        {margin, y + 5},
        0,
        look("note"),
        "Print at 100 %, not fitted to the page, and check both bars with a rule before you cut."
    );
    text += paper::svg_words(
        {margin, y + 9},
        0,
        look("note"),
        fmt::format(
            "Sheet {} thick, nose {}. Marks every {:g} mm along the edge: ink, never scribe.",
            units::side_by_side(coupon.sheet.thickness, units::LengthUnit::millimetre),
            units::side_by_side(coupon.block.nose_radius, units::LengthUnit::millimetre),
            mark_distance
        )
    );
    text += paper::svg_words(
        {margin, y + 13},
        0,
        look("note"),
        "Full: cut here. Long dashes: bend line. Dash and dot: outline of a block with square wall."
    );
    text += paper::svg_words(
        {margin, y + 17},
        0,
        look("note"),
        "A forming estimate, not approved data. A trial piece, never a part."
    );
    return text + paper::svg_bars({margin, y + 23}, look("cut"), look("note"));
}

std::string outline_of(const Paper& paper, const job::Job& coupon, const TestFlange& flange) {
    const BendLine& line = coupon.blank.line;
    const double end = line.length();
    std::string text = arcs(paper, line, "web-edge", -flange.web_width)
        + arcs(paper, line, "bend-line", 0) + arcs(paper, line, "edge", flange.flat_width)
        + paper::svg_line("start-end",
                          look("cut"),
                          paper.at(0, -flange.web_width),
                          paper.at(0, flange.flat_width))
        + paper::svg_line("far-end",
                          look("cut"),
                          paper.at(end, -flange.web_width),
                          paper.at(end, flange.flat_width));
    // Of a wall that leans outward the outline seen from above is another.
    return coupon.block.wall_angle > 0.5 * std::numbers::pi - 1e-6
        ? text + arcs(paper, line, "block", coupon.block.nose_radius)
        : text;
}

std::string steps_of(const Paper& paper, const BendLine& line, const TestFlange& flange) {
    std::string text;
    double begin = 0;
    const std::vector<outline::Piece> pieces = line.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (i > 0) {
            text += paper::svg_line(
                fmt::format("step-{}", i + 1),
                look("step"),
                paper.at(begin, -flange.web_width),
                paper.at(begin, 0)
            );
        }
        const double middle = begin + 0.5 * pieces[i].length;
        const std::string radius = fmt::format("radius {:g} mm", flange.steps[i].radius);
        const std::string stretch = fmt::format("{:.1f} % by hand", 100 * flange.steps[i].stretch);
        text += paper::svg_words(
            paper.at(middle, -0.45 * flange.web_width),
            paper.turn(middle),
            look("step-words"),
            radius
        );
        text += paper::svg_words(
            paper.at(middle, -0.45 * flange.web_width - 4),
            paper.turn(middle),
            look("step-words"),
            stretch
        );
        begin += pieces[i].length;
    }
    return text;
}

std::string
marks_of(const Paper& paper, const TestFlange& flange, const std::vector<GaugeMark>& marks) {
    const double length = std::min(4.0, flange.flat_width / 3);
    std::string text;
    for (const GaugeMark& mark : marks) {
        text += paper::svg_line(
            fmt::format("mark-{}", mark.number),
            look("mark"),
            paper.at(mark.station, flange.flat_width),
            paper.at(mark.station, flange.flat_width - length)
        );
        text += paper::svg_words(
            paper.at(mark.station, flange.flat_width + 1.2),
            paper.turn(mark.station),
            look("number"),
            std::to_string(mark.number)
        );
    }
    return text;
}

} // namespace

std::string template_drawing(
    const job::Job& coupon, const TestFlange& flange, const std::vector<GaugeMark>& marks
) {
    const Paper paper(coupon.blank.line, flange);
    return paper::svg_document(
        paper.width(),
        paper.height(),
        head_text(coupon) + outline_of(paper, coupon, flange)
            + steps_of(paper, coupon.blank.line, flange) + marks_of(paper, flange, marks)
    );
}

} // namespace flangewright::coupon
