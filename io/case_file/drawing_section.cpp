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

DrawingProblem nothing_on_layer(const Drawing& drawing, const std::string& layer) {
    if (drawing.n_not_understood > 0) {
        return {
            fmt::format("{} things on layer {} that are no line", drawing.n_not_understood, layer),
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
        "name the layer with the bend line alone on it"};
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

LineOnDrawing read_drawn(TableReader& table) {
    const std::optional<std::string> file = table.text("file", Need::required);
    const std::optional<std::string> layer = table.text("layer", Need::required);
    const std::optional<std::string> side = table.word("flange_side", side_words, Need::optional);
    const std::optional<double> kink_radius = read_round_kinks(table);
    LineOnDrawing drawn;
    if (!file || !layer || (table.has("round_kinks") && !kink_radius)) {
        return drawn;
    }
    const std::filesystem::path folder =
        std::filesystem::path(table.reading().file()).parent_path();
    const auto drawing = drawing::read_drawing_file(folder / *file, *layer);
    if (!drawing) {
        object_to(table, "file", drawing.error());
        return drawn;
    }
    if (drawing->strokes.empty() || drawing->n_not_understood > 0) {
        object_to(table, "layer", nothing_on_layer(*drawing, *layer));
        return drawn;
    }
    auto line = drawing::join(
        in_mm(*drawing, table.reading().unit),
        side == "right" ? drawing::Side::right : drawing::Side::left,
        kink_radius
    );
    if (!line) {
        line.error().found += " on layer " + *layer;
        object_to(table, "layer", line.error());
        return drawn;
    }
    for (std::size_t i = 0; i < line->pieces.size(); ++i) {
        drawn.pieces.push_back({line->pieces[i], line->names[i]});
    }
    drawn.rounded_kinks = std::move(line->rounded_kinks);
    return drawn;
}

} // namespace flangewright::case_file
