#include "io/case_file/sections.hpp"

#include <array>
#include <utility>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using key_file::ValueRule;

const std::array<std::string, 6> curve_words{
    "straight", "concave", "convex", "chain", "points", "drawing"};
constexpr std::array curves{
    outline::Curve::straight,
    outline::Curve::concave,
    outline::Curve::convex,
    outline::Curve::mixed,
    outline::Curve::mixed,
    outline::Curve::mixed};

ValueRule radius_rule(const std::string& key) {
    return {
        .key = key,
        .measure = Measure::length,
        .lowest = 2,
        .highest = 10'000,
        .reason = "a larger radius is as good as straight",
        .remedy = "check the unit, or write curve = \"straight\""};
}

void read_radius(TableReader& table, BendLineSection& line) {
    const bool has_radius = table.has("radius");
    const bool has_wall_radius = table.has("wall_radius");
    if (has_radius && has_wall_radius) {
        table.object_found(
            "wall_radius",
            "both radius and wall_radius",
            "one of them",
            "keep radius for the bend tangent line, or wall_radius for the block's outline"
        );
    } else if (has_wall_radius) {
        line.wall_radius = table.value(radius_rule("wall_radius"));
    } else {
        line.radius = table.value(radius_rule("radius"));
    }
}

void read_arc(TableReader& table, BendLineSection& line) {
    read_radius(table, line);
    line.sweep = table.value(
        {.key = "sweep",
         .measure = Measure::angle,
         .lowest = 0.5,
         .highest = 180,
         .reason = "degrees of the arc; a longer one is run as a slice with end = \"continues\"",
         .remedy = "write the degrees the arc turns through"}
    );
    if (table.has("length")) {
        table.object("length", "radius and sweep for an arc", "delete length");
    }
}

void read_straight(TableReader& table, BendLineSection& line) {
    line.length = table.value(
        {.key = "length",
         .measure = Measure::length,
         .lowest = 1,
         .highest = 3000,
         .reason = "the length of one flange",
         .remedy = "check the unit; a longer one is run as a slice with end = \"continues\""}
    );
    for (const char* key : {"radius", "wall_radius", "sweep"}) {
        if (table.has(key)) {
            table.object(
                key,
                "no " + std::string(key) + " on a straight bend line",
                "delete it, or write curve = \"concave\" or \"convex\""
            );
        }
    }
}

void read_chain(TableReader& table, BendLineSection& line) {
    if (line.pieces_key == "pieces") {
        line.pieces = read_pieces(table);
    } else {
        LineOnDrawing drawn = line.pieces_key == "points" ? read_points(table) : read_drawn(table);
        line.pieces = std::move(drawn.pieces);
        line.rounded_kinks = std::move(drawn.rounded_kinks);
        line.drawn = std::move(drawn.blank);
    }
    for (const char* key : {"length", "radius", "wall_radius", "sweep"}) {
        if (table.has(key)) {
            table.object(
                key,
                "no " + std::string(key) + " beside the " + line.pieces_key + " of a bend line",
                "delete it"
            );
        }
    }
}

// Other curves have no kinks.
void refuse_round_kinks(TableReader& table, const BendLineSection& line) {
    const bool is_drawn = line.pieces_key != "pieces";
    if (!is_drawn && table.has("round_kinks")) {
        table.object(
            "round_kinks",
            "no round_kinks on a bend line that has no kinks (only points and drawings can have "
            "them)",
            "delete it"
        );
    }
}

} // namespace

std::optional<double> read_round_kinks(TableReader& table) {
    return table.value(
        {.key = "round_kinks",
         .measure = Measure::length,
         .lowest = 2,
         .highest = 10'000,
         .reason = "the radius of the bend tangent line where the drawing has a kink",
         .remedy = "check the unit, or delete it if the line has no kinks",
         .need = Need::optional}
    );
}

BendLineSection read_bend_line(TableReader& table) {
    BendLineSection line;
    const std::optional<std::string> word = table.word("curve", curve_words, Need::required);
    if (!word) {
        return line; // which keys belong to it is not known, so none is called unknown
    }
    for (std::size_t i = 0; i < curves.size(); ++i) {
        if (curve_words.at(i) == *word) {
            line.curve = curves.at(i);
        }
    }
    if (line.curve == outline::Curve::mixed) {
        line.pieces_key = *word == "points" ? "points" : *word == "drawing" ? "file" : "pieces";
        read_chain(table, line);
    } else if (line.curve == outline::Curve::straight) {
        read_straight(table, line);
    } else {
        read_arc(table, line);
    }
    refuse_round_kinks(table, line);
    table.finish();
    return line;
}

} // namespace flangewright::case_file
