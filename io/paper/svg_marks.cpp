#include "io/paper/svg_marks.hpp"

#include "io/units/length.hpp"

#include <fmt/format.h>

namespace flangewright::paper {

std::string xml_text(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        switch (c) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        default:
            safe += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
        }
    }
    return safe;
}

std::string svg_line(
    const std::string& id,
    const std::string& attributes,
    const Eigen::Vector2d& a,
    const Eigen::Vector2d& b
) {
    return fmt::format(
        "<line id=\"{}\" {} x1=\"{:.3f}\" y1=\"{:.3f}\" x2=\"{:.3f}\" y2=\"{:.3f}\"/>\n",
        id,
        attributes,
        a.x(),
        a.y(),
        b.x(),
        b.y()
    );
}

std::string svg_words(
    const Eigen::Vector2d& at, double turn, const std::string& attributes, std::string_view words
) {
    return fmt::format(
        "<text {0} x=\"{1:.3f}\" y=\"{2:.3f}\" transform=\"rotate({3:.2f} {1:.3f} {2:.3f})\" "
        "fill=\"black\" stroke=\"none\" font-family=\"sans-serif\">{4}</text>\n",
        attributes,
        at.x(),
        at.y(),
        turn,
        xml_text(words)
    );
}

std::string svg_bars(const Eigen::Vector2d& at, const std::string& line, const std::string& words) {
    const auto bar = [&](const char* id, double length, double y, const char* name) {
        const Eigen::Vector2d begin(at.x(), y);
        const Eigen::Vector2d end(at.x() + length, y);
        const Eigen::Vector2d up(0, 2);
        return svg_line(id, line, begin, end)
            + svg_line(std::string(id) + "-start", line, begin - up, begin + up)
            + svg_line(std::string(id) + "-end", line, end - up, end + up)
            + svg_words({end.x() + 3, y + 1}, 0, words, name);
    };
    return bar("bar-100-mm", 100, at.y(), "100 mm")
        + bar("bar-4-in", 4 * units::mm_per_inch, at.y() + 8, "4 in");
}

std::string svg_document(double width, double height, const std::string& body) {
    return fmt::format(
               "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
               "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0:.3f}mm\" "
               "height=\"{1:.3f}mm\" viewBox=\"0 0 {0:.3f} {1:.3f}\">\n",
               width,
               height
           )
        + "<g fill=\"none\" stroke=\"black\" stroke-width=\"0.2\">\n" + body + "</g>\n</svg>\n";
}

} // namespace flangewright::paper
