#include "io/coupon/bench_note.hpp"

#include "io/units/length.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::coupon {

namespace {

std::string both(double length) {
    return units::side_by_side(length, units::LengthUnit::millimetre);
}

std::string limit_words(const TestFlange& flange) {
    return fmt::format(
        "As known so far this edge bears {:.1f} % ({}, {}: {}).\n",
        100 * *flange.allowed.bears.value,
        flange.allowed.what,
        material::word_for(flange.allowed.bears.grade),
        flange.allowed.bears.source.empty() ? "source not given" : flange.allowed.bears.source
    );
}

/// First and last mark of a step; "-" where none lies in it.
std::string marks_in(std::size_t step, const std::vector<GaugeMark>& marks) {
    const auto is_in = [step](const GaugeMark& mark) { return mark.step == step; };
    const auto first = std::ranges::find_if(marks, is_in);
    const auto last = std::find_if(marks.rbegin(), marks.rend(), is_in);
    return first == marks.end() ? "-" : fmt::format("{} to {}", first->number, last->number);
}

std::string table_of_steps(
    const job::Job& coupon, const TestFlange& flange, const std::vector<GaugeMark>& marks
) {
    const bool is_square = coupon.block.wall_angle > 0.5 * std::numbers::pi - 1e-6;
    std::string text = fmt::format(
        "  {:<6}{:<24}{:<24}{:<16}{}\n",
        "step",
        "bend line's radius",
        is_square ? "block's radius" : "",
        "edge, by hand",
        "marks"
    );
    for (std::size_t i = 0; i < flange.steps.size(); ++i) {
        const FlangeStep& step = flange.steps[i];
        text += fmt::format(
            "  {:<6}{:<24}{:<24}{:<16}{}\n",
            i + 1,
            both(step.radius),
            is_square ? both(step.radius - coupon.block.nose_radius) : "",
            fmt::format("{:.1f} %", 100 * step.stretch),
            marks_in(i, marks)
        );
    }
    return text;
}

std::string finish_words(const job::Job& coupon) {
    return coupon.blank.edge_finish
        ? "   Finish the edge as the part's will be: "
            + material::word_for(*coupon.blank.edge_finish) + ".\n"
        : std::string("   Finish the edge as the part's will be; the case does not say how.\n");
}

std::string first_steps(const job::Job& coupon, const TestFlange& flange) {
    return fmt::format(
               "1. Print template.svg at 100 %; check the bars of 100 mm and 4 in with a rule.\n"
               "2. Cut the block: bend line less the nose, nose {}; the template shows its "
               "outline.\n"
               "   The straight ends of the blank are cut, web {} wide, flange {} in the flat.\n"
               "3. Cut the blank from the lot the part will be made of, laid to the rolling "
               "direction\n"
               "   as the part. Note the lot; measure the sheet's thickness with a micrometer.\n",
               both(coupon.block.nose_radius),
               both(flange.web_width),
               both(flange.flat_width)
           )
        + finish_words(coupon);
}

constexpr std::string_view last_steps =
    "4. Ink the marks onto the edge with a fine pen, {0:g} mm apart, number every fifth. Never "
    "scribe\n"
    "   or punch: a scratch is a crack's beginning. Measure each pair along the edge before "
    "forming\n"
    "   (paper strip or flexible rule, read with a glass) and write it into measured.csv.\n"
    "5. Clamp and drive as the part will be. Look at the edge with a glass after each pass and "
    "STOP\n"
    "   AT THE FIRST CRACK; the whole edge is measured as it is then.\n"
    "6. Measure each pair again along the curved edge, on the face the first reading was taken "
    "on;\n"
    "   across a crack add up the metal alone, without its gap. Write \"yes\" under cracked where "
    "a\n"
    "   crack or a visible neck lies between both marks. With a micrometer at the edge, the\n"
    "   thickness tells whether a reading can be true; leave the cell empty where you have none.\n"
    "   Delete rows you did not measure; add pairs as you like. 0.1 mm misread is 1 % on 10 mm.\n"
    "7. flangewright coupon read measured.csv --sheet NAME --lot \"LOT\" --finish FINISH\n"
    "       --thickness \"MEASURED mm\"\n"
    "   No crack at all: the edge bears at least the largest reading. Cracked at step 1: the edge\n"
    "   bears less than the figures of the sheet; bend a second coupon with larger radii.\n";

constexpr const char* cautions =
    "CAUTION. A forming estimate, not approved data: the drawing, the maker's data, local rules "
    "and\n"
    "licensed people come first. A trial piece, never a part. The computed stretch near the ends "
    "and\n"
    "where the radius changes differs from the figures by hand: only what you measure counts. One\n"
    "coupon is one reading of one lot and one finish; bend three before you trust the limit.\n"
    "Edges cut and cracked are sharp: gloves and glasses.\n";

} // namespace

std::string
bench_note(const job::Job& coupon, const TestFlange& flange, const std::vector<GaugeMark>& marks) {
    return fmt::format(
               "TEST FLANGE: what stretch does this edge bear?\n\n"
               "Sheet: {}, {} thick.\n",
               coupon.sheet.material.name,
               both(coupon.sheet.thickness)
           )
        + limit_words(flange)
        + "The bend line's radius falls in steps, and the edge's stretch rises with them:\n\n"
        + table_of_steps(coupon, flange, marks) + "\n" + first_steps(coupon, flange)
        + fmt::format(last_steps, mark_distance) + "\n" + cautions;
}

std::string empty_table(const std::vector<GaugeMark>& marks) {
    std::string text =
        "# Fill in before and after in mm, yes or no under cracked; thickness may stay "
        "empty.\n# Delete rows that were not measured.\n"
        "mark_from,mark_to,before_mm,after_mm,thickness_mm,cracked\n";
    for (const auto& [from, to] : mark_pairs(marks)) {
        text += fmt::format("{},{},,,,\n", from, to);
    }
    return text;
}

} // namespace flangewright::coupon
