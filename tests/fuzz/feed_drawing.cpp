#include "io/drawing/blank_outline.hpp"
#include "io/drawing/cut_out.hpp"
#include "io/drawing/drawn_line.hpp"
#include "io/drawing/dxf_file.hpp"
#include "mesh/base/check.hpp"
#include "tests/fuzz/feed.hpp"

#include <cmath>
#include <vector>

namespace flangewright::fuzz {

namespace {

void check_problem(const drawing::DrawingProblem& problem) {
    check(
        !problem.found.empty() && !problem.allowed.empty() && !problem.remedy.empty(),
        "a problem says what was found, what is allowed and what to do"
    );
}

void check_line(const Result<drawing::DrawnLine, drawing::DrawingProblem>& line) {
    if (!line) {
        check_problem(line.error());
        return;
    }
    check(line->pieces.size() == line->names.size(), "each piece has a name");
    for (const outline::Piece& piece : line->pieces) {
        check(std::isfinite(piece.length) && piece.length > 0, "a piece has a length");
        check(std::isfinite(piece.curvature), "a piece has a curvature");
    }
    const outline::BendLine whole = outline::BendLine::chain(line->pieces);
    check(whole.frame(whole.length()).point.allFinite(), "a line ends somewhere");
}

/// What else may stand on a drawing, seen from the bend line.
void check_blank(std::string_view text, const drawing::PlacedLine& line) {
    for (const char* layer : {"BLANK", "HOLES", "RELIEF"}) {
        const auto drawn = drawing::read_drawing(text, layer);
        if (!drawn || drawn->strokes.empty()) {
            continue;
        }
        const auto circles =
            drawing::circles_of(drawn->strokes).value_or(std::vector<drawing::DrawnCircle>{});
        for (const drawing::DrawnCircle& circle : circles) {
            check(std::isfinite(line.locate(circle.centre).distance), "a hole lies somewhere");
        }
        const auto slots =
            drawing::slots_of(drawn->strokes).value_or(std::vector<drawing::DrawnSlot>{});
        for (const drawing::DrawnSlot& slot : slots) {
            check(std::isfinite(line.locate(slot.centre).station), "a relief lies somewhere");
        }
        const auto outline = drawing::blank_outline_of(drawn->strokes, line);
        if (!outline) {
            check_problem(outline.error());
        } else {
            check(outline->web_width > 0 && outline->flat_width > 0, "a blank has two sides");
        }
    }
}

} // namespace

void feed_drawing(std::string_view text) {
    const auto drawn = drawing::read_drawing(text, "BEND");
    if (!drawn) {
        check_problem(drawn.error());
        return;
    }
    check_line(drawing::join(drawn->strokes, drawing::Side::right, 3));
    const auto line = drawing::join(drawn->strokes, drawing::Side::right);
    check_line(line);
    if (line) {
        check_blank(text, drawing::PlacedLine(*line));
    }
}

} // namespace flangewright::fuzz
