// Parts of SVG drawings at real size that all templates share. Points have y downward, as on paper.
#pragma once

#include <Eigen/Core>

#include <string>
#include <string_view>

namespace flangewright::paper {

/// A straight line with its id; `attributes` say its kind and look. Units: mm. Source: SVG 1.1
/// (W3C), from memory. Fails: never.
[[nodiscard]] std::string svg_line(
    const std::string& id,
    const std::string& attributes,
    const Eigen::Vector2d& a,
    const Eigen::Vector2d& b
);

/// A line of words, turned by degrees clockwise. Units: mm, deg. Source: as svg_line(). Fails:
/// never.
[[nodiscard]] std::string svg_words(
    const Eigen::Vector2d& at, double turn, const std::string& attributes, std::string_view words
);

/// Bars of 100 mm and 4 in, the second 8 mm below the first, each with its name. Units: mm. Source:
/// 1 in = 25.4 mm, ISO 80000-3. Fails: never.
[[nodiscard]] std::string
svg_bars(const Eigen::Vector2d& at, const std::string& line, const std::string& words);

/// The whole drawing: one unit is one millimetre, lines black and thin unless they say otherwise.
/// Units: mm. Source: as svg_line(). Fails: never.
[[nodiscard]] std::string svg_document(double width, double height, const std::string& body);

/// Text that may stand between tags. Units: none. Source: XML 1.0 (W3C), from memory. Fails: never.
[[nodiscard]] std::string xml_text(std::string_view text);

} // namespace flangewright::paper
