#include "io/drawing/drawn_line.hpp"
#include "io/drawing/dxf_file.hpp"
#include "mesh/base/check.hpp"
#include "tests/fuzz/feed.hpp"

#include <cmath>

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

} // namespace

void feed_drawing(std::string_view text) {
    const auto drawn = drawing::read_drawing(text, "BEND");
    if (!drawn) {
        check_problem(drawn.error());
        return;
    }
    check_line(drawing::join(drawn->strokes, drawing::Side::right, 3));
    check_line(drawing::join(drawn->strokes, drawing::Side::right));
}

} // namespace flangewright::fuzz
