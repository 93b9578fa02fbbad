#include "io/paper/svg_sheet.hpp"

#include "io/paper/svg_marks.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace flangewright::paper {

namespace {

using Eigen::Vector2d;

constexpr double margin = 12; // mm round the drawing
constexpr double foot = 24; // mm below it, for the bars
constexpr double least_width = 160; // mm: the bars and the words beside them

/// Where a point of the drawing lies on the page: y grows downward there.
struct Page {
    Extent drawn;

    [[nodiscard]] Vector2d at(const Vector2d& point) const {
        return {point.x() - drawn.low.x() + margin, drawn.high.y() - point.y() + margin};
    }
};

std::string path_text(const Page& page, const Path& path) {
    Vector2d at = page.at(path.vertices.front().at);
    std::string text = fmt::format("<path d=\"M {:.3f} {:.3f}", at.x(), at.y());
    const std::size_t n = path.vertices.size();
    for (std::size_t i = 0; i + (path.is_closed ? 0 : 1) < n; ++i) {
        const Vertex& begin = path.vertices[i];
        const Vertex& end = path.vertices[(i + 1) % n];
        at = page.at(end.at);
        if (begin.bulge == 0) {
            text += fmt::format(" L {:.3f} {:.3f}", at.x(), at.y());
        } else {
            text += fmt::format(
                " A {0:.3f} {0:.3f} 0 {1} {2} {3:.3f} {4:.3f}",
                bulge_radius(begin.at, end.at, begin.bulge),
                std::abs(begin.bulge) > 1 ? 1 : 0, // more than half a turn
                begin.bulge > 0 ? 0 : 1, // y is turned over
                at.x(),
                at.y()
            );
        }
    }
    return text + (path.is_closed ? " Z\"/>\n" : "\"/>\n");
}

std::string circle_text(const Page& page, const Circle& circle) {
    const Vector2d at = page.at(circle.centre);
    return fmt::format(
        "<circle cx=\"{:.3f}\" cy=\"{:.3f}\" r=\"{:.3f}\"/>\n", at.x(), at.y(), circle.radius
    );
}

std::string layer_text(const Page& page, const Sheet& sheet, Pen pen) {
    std::string text;
    for (const Path& path : sheet.paths) {
        text += path.pen == pen && !path.vertices.empty() ? path_text(page, path) : "";
    }
    for (const Circle& circle : sheet.circles) {
        text += circle.pen == pen ? circle_text(page, circle) : "";
    }
    if (text.empty()) {
        return text;
    }
    const PenLook& look = look_of(pen);
    const std::string dashes = look.dashes.empty()
        ? ""
        : fmt::format(" stroke-dasharray=\"{}\"", fmt::join(look.dashes, " "));
    return fmt::format(
        "<g id=\"{}\" stroke-width=\"{}\"{}>\n{}</g>\n", look.layer, look.width, dashes, text
    );
}

std::string words_text(const Page& page, const Sheet& sheet) {
    std::string text;
    for (const Words& words : sheet.words) {
        text += svg_words(
            page.at(words.at),
            -units::degrees(words.turn),
            fmt::format(
                "font-size=\"{:g}\"{}",
                words.height,
                words.is_centred ? " text-anchor=\"middle\"" : ""
            ),
            words.text
        );
    }
    return "<g id=\"" + look_of(Pen::text).layer + "\">\n" + text + "</g>\n";
}

} // namespace

std::string svg_of(const Sheet& sheet) {
    const Page page{sheet.extent()};
    const Vector2d size = page.drawn.size();
    std::string body;
    for (const Pen pen : all_pens()) {
        body += layer_text(page, sheet, pen);
    }
    body += words_text(page, sheet);
    body += svg_bars({margin, size.y() + margin + 8}, "stroke-width=\"0.2\"", "font-size=\"2.8\"");
    return svg_document(
        std::max(size.x() + 2 * margin, least_width), size.y() + 2 * margin + foot - margin, body
    );
}

} // namespace flangewright::paper
