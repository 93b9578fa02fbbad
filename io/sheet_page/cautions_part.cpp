#include "io/sheet_page/cautions_part.hpp"

#include "io/sheet_page/html.hpp"

#include <array>

namespace flangewright::sheet_page {

namespace {

constexpr std::array<const char*, 10> texts{
    "This is an estimate of forming, not of strength or airworthiness. The drawing and the type's "
    "or kit's own approved data come first, then the local rules; a licensed person decides "
    "whether "
    "the part may be used.",
    "The verdict is as good as its material data. Typical values are not minimums: bend a coupon "
    "of "
    "the same lot, same temper, same edge finish before you cut the blank.",
    "The edge decides more than the radius. Deburr, file out every nick and polish along the edge "
    "before bending. Mark with ink, never scribe; drill nothing in the flange beforehand.",
    "The trim allowance stretches most and may split first; such a split can run into the part. "
    "Trim and finish the edge again before any second bend, which starts from hardened metal.",
    "The estimate drives the flange evenly and slowly with the web clamped. Hammer marks, one hard "
    "spot, or working from the middle to the ends change the answer.",
    "Form and straighten only in the soft condition or within its time after the quench. Do not "
    "hammer hardened sheet back to shape. No torch or marker \"anneal\" on a structural part.",
    "Springback holds for this temper only. Heat treatment moves the part again; quench distortion "
    "is not in these figures. Check angle, lift and depth after it.",
    "Look for cracks after each bend and after heat treatment: dye penetrant finds what a glass "
    "does not, and cladding hides cracks in the core. A cracked new part is scrap.",
    "Heat-treat log, certificate and a hardness or conductivity coupon belong to the part. Through "
    "cladding, conductivity misleads.",
    "Salt baths spit and burn, quench tanks scald, blocks pinch: face shield, dry gloves, hearing "
    "protection, fingers clear."};

} // namespace

std::string cautions_part() {
    std::string content = "<ul>\n";
    for (const char* caution : texts) {
        content += "<li>" + safe(caution) + "</li>\n";
    }
    return section("cautions", "Cautions", content + "</ul>\n");
}

std::span<const char* const> cautions() {
    return texts;
}

std::string caution_words() {
    return "Not approved data. A forming estimate for planning and for the build log; drawing, "
           "approved data and the licensed person come first.";
}

std::string caution_line() {
    return "<p class=\"caution-line\">" + caution_words() + "</p>\n";
}

} // namespace flangewright::sheet_page
