// A drawing at real size cut into pages that are glued together.
#pragma once

#include "io/paper/sheet.hpp"

#include <string>
#include <vector>

namespace flangewright::paper {

/// A sheet of paper, upright. mm.
struct PageSize {
    std::string name;
    double width = 0;
    double height = 0;
};

/// Units: mm. Source: ISO 216; Letter 8 1/2 x 11 in: ANSI Y14.1 (from memory). Fails: never.
[[nodiscard]] PageSize a4();
[[nodiscard]] PageSize letter();

/// One page: what part of the drawing it shows.
struct Tile {
    int row = 1; ///< from the top
    int column = 1; ///< from the left
    Extent window; ///< of the drawing
};

/// Where pages overlap: a cross at a place of the drawing, shown on each page that holds it.
struct Register {
    Eigen::Vector2d at = Eigen::Vector2d::Zero();
    int number = 1;
};

/// All pages of a drawing.
struct Tiling {
    double page_width = 0; ///< as the pages lie
    double page_height = 0;
    int n_rows = 1;
    int n_columns = 1;
    std::vector<Tile> tiles; ///< by rows
    std::vector<Register> registers;
};

inline constexpr double page_margin = 10; ///< mm; most printers leave less than that blank
inline constexpr double page_foot = 25; ///< mm above the lower margin, for bars and words
inline constexpr double page_overlap = 12; ///< mm of the drawing that neighbouring pages share

/// The fewest pages, upright or lying; a drawing on one page lies in its middle. Units: mm. Source:
/// common practice, no source. Fails: never.
[[nodiscard]] Tiling tiles_for(const Extent& lines, const PageSize& page);

} // namespace flangewright::paper
