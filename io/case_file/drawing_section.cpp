// A bend line taken from a drawing beside the case file.
#include "io/case_file/sections.hpp"
#include "io/drawing/drawn_line.hpp"
#include "io/drawing/dxf_file.hpp"
#include "io/units/length.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

namespace flangewright::case_file {

namespace {

using drawing::Drawing;
using drawing::DrawingProblem;
using key_file::Need;
using key_file::TableReader;

const std::array<std::string, 2> side_words{"left", "right"};

void object_to(TableReader& table, const std::string& key, const DrawingProblem& problem) {
    table.object_found(key, problem.found, problem.allowed, problem.remedy);
}

DrawingProblem
nothing_on_layer(const Drawing& drawing, const std::string& layer, const std::string& alone) {
    if (drawing.n_not_understood > 0) {
        return {
            fmt::format(
                "{} things on layer {} that are no line (the first: {})",
                drawing.n_not_understood,
                layer,
                drawing.first_not_understood
            ),
            "lines, arcs, circles, polylines and splines that are smooth",
            "take ellipses and blocks apart into arcs in the drawing"};
    }
    constexpr std::size_t most_named = 10;
    std::vector<std::string> layers = drawing.layers;
    layers.resize(std::min(layers.size(), most_named));
    return {
        "nothing drawn on layer " + layer,
        layers.empty() ? "a drawing with lines or arcs"
                       : fmt::format("a layer of the drawing: {}", fmt::join(layers, ", ")),
        "name the layer with " + alone + " alone on it"};
}

/// The strokes in mm: by the drawing's unit, else the case file's.
std::vector<drawing::Stroke> in_mm(const Drawing& drawing, units::LengthUnit unit) {
    const double own = unit == units::LengthUnit::inch ? units::mm_per_inch : 1;
    std::vector<drawing::Stroke> strokes;
    for (const drawing::Stroke& stroke : drawing.strokes) {
        strokes.push_back(drawing::scaled(stroke, drawing.mm_per_unit.value_or(own)));
    }
    return strokes;
}

} // namespace

std::optional<std::vector<drawing::Stroke>>
strokes_on_layer(TableReader& table, const std::string& key, const std::string& alone) {
    const std::optional<std::string> file = table.text("file", Need::required);
    const std::optional<std::string> layer = table.text(key, Need::required);
    if (!file || !layer) {
        return std::nullopt;
    }
    const std::filesystem::path folder =
        std::filesystem::path(table.reading().file()).parent_path();
    const auto drawing = drawing::read_drawing_file(folder / *file, *layer);
    if (!drawing) {
        object_to(table, "file", drawing.error());
        return std::nullopt;
    }
    if (drawing->n_points > 0 && key != "layer") {
        object_to(
            table,
            key,
            {fmt::format("{} points on layer {}", drawing->n_points, *layer),
             "shapes with their size",
             "draw a circle of the hole's diameter in place of each point, or delete them"}
        );
        return std::nullopt;
    }
    if (drawing->strokes.empty() || drawing->n_not_understood > 0) {
        object_to(table, key, nothing_on_layer(*drawing, *layer, alone));
        return std::nullopt;
    }
    return in_mm(*drawing, table.reading().unit);
}

LineOnDrawing read_drawn(TableReader& table) {
    const auto strokes = strokes_on_layer(table, "layer", "the bend line");
    const std::optional<std::string> side = table.word("flange_side", side_words, Need::optional);
    const std::optional<double> kink_radius = read_round_kinks(table);
    LineOnDrawing drawn;
    if (!strokes || (table.has("round_kinks") && !kink_radius)) {
        drawn.blank = read_drawn_blank(table, std::nullopt);
        return drawn;
    }
    auto line = drawing::join(
        *strokes, side == "right" ? drawing::Side::right : drawing::Side::left, kink_radius
    );
    if (!line) {
        line.error().found += " on layer " + table.text("layer", Need::required).value_or("");
        object_to(table, "layer", line.error());
        drawn.blank = read_drawn_blank(table, std::nullopt);
        return drawn;
    }
    drawn.blank = read_drawn_blank(table, drawing::PlacedLine(*line));
    for (std::size_t i = 0; i < line->pieces.size(); ++i) {
        drawn.pieces.push_back({line->pieces[i], line->names[i]});
    }
    drawn.rounded_kinks = std::move(line->rounded_kinks);
    return drawn;
}

} // namespace flangewright::case_file
