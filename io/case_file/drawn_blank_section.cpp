// Outline, holes and reliefs of the blank taken from layers of the drawing that holds the bend
// line.
#include "io/case_file/sections.hpp"
#include "io/drawing/cut_out.hpp"
#include "io/units/length.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::case_file {

namespace {

using drawing::DrawingProblem;
using drawing::PlacedLine;
using key_file::Need;
using key_file::TableReader;

constexpr std::size_t most_of_a_kind = 100;

/// Whether a size measured off the drawing lies in the range of the same key in the case file.
bool is_in_range(
    OpeningPlace& place, const std::string& key, double value, double lowest, double highest
) {
    if (value >= lowest && value <= highest) {
        return true;
    }
    place.object(
        key,
        fmt::format("{:.4g} mm", value),
        fmt::format("{:g} to {:g} mm", lowest, highest),
        "check the drawing's unit ($INSUNITS), or take it off the layer"
    );
    return false;
}

/// Reads one layer after the other of a drawing whose bend line is known.
class Layers {
public:
    Layers(TableReader& table, const PlacedLine& line) : table_(table), line_(line) {}

    std::optional<drawing::BlankOutline> outline() {
        const std::string key = "outline_layer";
        const auto strokes = strokes_on_layer(table_, key, "the blank's outline");
        if (!strokes) {
            return std::nullopt;
        }
        const auto read = drawing::blank_outline_of(*strokes, line_);
        if (!read) {
            object(key, read.error());
            return std::nullopt;
        }
        OpeningPlace place{table_, key, "the outline on layer " + layer(key)};
        const bool is_good = is_in_range(place, "web_width", read->web_width, 2, 1000)
            && is_in_range(place, "flat_width", read->flat_width, 1, 300);
        return is_good ? std::optional(*read) : std::nullopt;
    }

    void add_holes(const std::string& key, bool are_pins, std::vector<Written<outline::Hole>>& to) {
        const auto strokes = strokes_on_layer(table_, key, "circles");
        if (!strokes) {
            return;
        }
        const auto circles = drawing::circles_of(*strokes);
        if (!circles) {
            object(key, circles.error());
            return;
        }
        if (!is_few(key, circles->size())) {
            return;
        }
        for (const drawing::DrawnCircle& circle : *circles) {
            OpeningPlace place{table_, key, circle.name + " on layer " + layer(key)};
            const outline::LinePosition at = line_.locate(circle.centre);
            if (is_in_range(place, "diameter", circle.diameter, 0.5, 500)) {
                to.push_back({{at.station, at.distance, circle.diameter, are_pins}, place});
            }
        }
    }

    void add_reliefs(std::vector<DrawnRelief>& to) {
        const std::string key = "relief_layer";
        const auto strokes = strokes_on_layer(table_, key, "slots");
        if (!strokes) {
            return;
        }
        const auto slots = drawing::slots_of(*strokes);
        if (!slots) {
            object(key, slots.error());
            return;
        }
        if (!is_few(key, slots->size())) {
            return;
        }
        for (const drawing::DrawnSlot& slot : *slots) {
            add_relief(slot, {table_, key, slot.name + " on layer " + layer(key)}, to);
        }
    }

private:
    void
    add_relief(const drawing::DrawnSlot& slot, OpeningPlace place, std::vector<DrawnRelief>& to) {
        constexpr double aslant = std::numbers::pi / 180;
        const outline::LinePosition at = line_.locate(slot.centre);
        const double cosine = slot.axis.dot(line_.outward_at(at.station));
        const double off = std::acos(std::clamp(cosine, -1.0, 1.0));
        if (!(off <= aslant)) {
            place.object(
                "axis",
                fmt::format("turned by {:.3g} deg", off * 180 / std::numbers::pi),
                "slots square to the bend line (1 deg), open toward the flange's edge",
                "turn the slot square to the bend line"
            );
            return;
        }
        if (!is_in_range(place, "width", slot.width, 0.5, 200)) {
            return;
        }
        double mouth = line_.locate(slot.mouth[0]).distance;
        mouth = std::min(mouth, line_.locate(slot.mouth[1]).distance);
        const double bottom = at.distance - 0.5 * slot.width;
        to.push_back({at.station, slot.width, bottom, mouth, std::move(place)});
    }

    [[nodiscard]] std::string layer(const std::string& key) {
        return table_.text(key, Need::required).value_or("");
    }
    void object(const std::string& key, const DrawingProblem& problem) {
        table_.object_found(
            key, problem.found + " on layer " + layer(key), problem.allowed, problem.remedy
        );
    }
    bool is_few(const std::string& key, std::size_t n) {
        if (n > most_of_a_kind) {
            table_.object_found(
                key,
                fmt::format("{} on layer {}", n, layer(key)),
                "at most 100 of a kind",
                "leave out those far from the bend"
            );
        }
        return n <= most_of_a_kind;
    }

    TableReader& table_;
    const PlacedLine& line_;
};

} // namespace

DrawnBlank read_drawn_blank(TableReader& table, const std::optional<PlacedLine>& line) {
    DrawnBlank drawn;
    drawn.has_outline = table.has("outline_layer");
    const bool has_holes = table.has("hole_layer");
    const bool has_pins = table.has("pin_layer");
    const bool has_reliefs = table.has("relief_layer");
    if (!line) {
        return drawn;
    }
    Layers layers(table, *line);
    if (drawn.has_outline) {
        drawn.outline = layers.outline();
    }
    if (has_holes) {
        layers.add_holes("hole_layer", false, drawn.holes);
    }
    if (has_pins) {
        layers.add_holes("pin_layer", true, drawn.holes);
    }
    if (has_reliefs) {
        layers.add_reliefs(drawn.reliefs);
    }
    return drawn;
}

} // namespace flangewright::case_file
