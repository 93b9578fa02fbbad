#include "io/part_view/view_data.hpp"

#include "io/part_view/packed.hpp"
#include "io/sheet_page/html.hpp"
#include "io/tables/shown_length.hpp"
#include "io/vtk/colour_map.hpp"
#include "io/vtk/colour_scale.hpp"
#include "mesh/grid/outlines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::part_view {

namespace {

using sheet_page::base64;

/// Where a field's colours begin and end, in the unit that is shown.
struct Scale {
    double low = 0;
    double top = 0; ///< not above low: nothing to show
    int n_steps = 4; ///< between round numbers, zero among them
};

bool is_length(Field field) {
    return field == Field::movement || field == Field::web_gap;
}

double factor_of(Field field, units::LengthUnit unit) {
    return is_length(field) ? tables::in_unit(1, unit) : 1;
}

const char* key_of(Field field) {
    constexpr std::array<const char*, fields.size()> keys{
        "share", "thinning", "edge", "outer", "mid", "plastic", "movement", "gap"};
    return keys[static_cast<std::size_t>(field)];
}

const char* title_of(Field field) {
    constexpr std::array<const char*, fields.size()> titles{
        "Share used of what the sheet bears",
        "Thinning",
        "Stretch along cut edges",
        "Largest stretch on the outer face",
        "Largest stretch at mid-thickness",
        "Plastic strain (equivalent, most through the thickness)",
        "Movement on release",
        "Gap beneath the web"};
    return titles[static_cast<std::size_t>(field)];
}

/// From 0, or from as many of the same steps below it as the sheet thickens or the edge shrinks.
Scale scale_of(const std::vector<ViewState>& states, Field field, double factor) {
    double least = 0;
    double most = 0;
    for (const ViewState& state : states) {
        for (const double figure : state.of(field)) {
            if (std::isfinite(figure)) {
                least = std::min(least, figure * factor);
                most = std::max(most, figure * factor);
            }
        }
    }
    if (most == 0 && least == 0) {
        return {};
    }
    const double larger = vtk::round_up(std::max(most, -least));
    const double step = larger / vtk::n_scale_steps(larger);
    const auto n_steps_to = [step](double figure) {
        return static_cast<int>(std::ceil(figure / step - 1e-9));
    };
    // A dent below zero that no eye sees would only halve the colours.
    const int n_below = -least > 0.02 * most ? n_steps_to(-least) : 0;
    const int n_above = n_steps_to(most);
    return {-step * n_below, step * n_above, n_below + n_above};
}

/// The field to show first: the first of the list that has colours to show where the page begins,
/// in the last state. After heat treatment little of the share is used, say.
const char* first_key(const std::vector<ViewState>& states, const std::vector<Scale>& scales) {
    constexpr double telling = 0.25; // of the scale
    for (const Field field : fields) {
        const Scale& scale = scales[static_cast<std::size_t>(field)];
        const Eigen::VectorXd& figures = states.back().of(field);
        if (scale.top > scale.low && std::ranges::any_of(figures, [&scale](double f) {
                return f >= telling * scale.top;
            })) {
            return key_of(field);
        }
    }
    return "";
}

std::string colours_text() {
    std::string bytes;
    for (int i = 0; i < no_figure_byte; ++i) {
        for (const double part : vtk::colour_at(i / 254.0)) {
            bytes += static_cast<char>(std::lround(255 * part));
        }
    }
    return base64(bytes);
}

std::string fields_text(const std::vector<Scale>& scales, units::LengthUnit unit) {
    std::string text;
    for (const Field field : fields) {
        const Scale& scale = scales[static_cast<std::size_t>(field)];
        if (scale.top <= scale.low) {
            continue;
        }
        const double step = (scale.top - scale.low) / scale.n_steps;
        text += fmt::format(
            R"({}{{"key":"{}","title":"{}","unit":"{}","low":{:.6g},"top":{:.6g},"steps":{},"decimals":{}}})",
            text.empty() ? "" : ",",
            key_of(field),
            title_of(field),
            is_length(field) ? tables::unit_word(unit) : "%",
            scale.low,
            scale.top,
            scale.n_steps,
            vtk::n_decimals_for(step)
        );
    }
    return text;
}

std::vector<int> corners(const grid::SheetMesh& mesh) {
    std::vector<int> numbers;
    for (const std::array<int, 4>& quad : mesh.quads) {
        numbers.insert(numbers.end(), quad.begin(), quad.end());
    }
    return numbers;
}

/// Cut edges whose stretch is known: the free edge, then rims.
std::string edges_text(const grid::SheetMesh& mesh, bool is_wide) {
    std::vector<std::vector<int>> lines;
    for (const std::vector<int>& run : grid::edge_runs(mesh)) {
        lines.push_back(run);
    }
    for (const grid::Rim& rim : mesh.rims) {
        lines.push_back(grid::rim_line(rim));
    }
    std::string text;
    for (const std::vector<int>& line : lines) {
        text += text.empty() ? "\"" : ",\"";
        text += base64(packed_numbers(line, is_wide)) + "\"";
    }
    return text;
}

std::string flat_place_text(const Eigen::VectorXd& lengths, units::LengthUnit unit) {
    const double least = lengths.minCoeff();
    const double most = lengths.maxCoeff();
    const double span = std::max(most - least, 1e-9);
    std::vector<int> codes;
    for (const double length : lengths) {
        codes.push_back(static_cast<int>(std::lround(65535 * (length - least) / span)));
    }
    return fmt::format(
        R"({{"low":{:.6g},"span":{:.6g},"codes":"{}"}})",
        tables::in_unit(least, unit),
        tables::in_unit(span, unit),
        base64(packed_numbers(codes, false))
    );
}

std::string mesh_text(const grid::SheetMesh& mesh, units::LengthUnit unit) {
    constexpr int most_in_two_bytes = 65536;
    const bool is_wide = mesh.n_nodes() > most_in_two_bytes;
    return fmt::format(
        R"({{"nodes":{},"bytes":{},"quads":"{}","edges":[{}],"station":{},"distance":{}}})",
        mesh.n_nodes(),
        is_wide ? 4 : 2,
        base64(packed_numbers(corners(mesh), is_wide)),
        edges_text(mesh, is_wide),
        flat_place_text(mesh.station, unit),
        flat_place_text(mesh.distance, unit)
    );
}

/// Meshes that are in use, each once, and which of them a step has.
struct Meshes {
    std::vector<const grid::SheetMesh*> list;

    std::size_t place_of(const grid::SheetMesh& mesh) {
        const auto found = std::ranges::find(list, &mesh);
        if (found != list.end()) {
            return static_cast<std::size_t>(found - list.begin());
        }
        list.push_back(&mesh);
        return list.size() - 1;
    }
};

std::string state_text(
    const ViewState& state,
    std::size_t mesh,
    const Cube& cube,
    const std::vector<Scale>& scales,
    units::LengthUnit unit
) {
    std::string figures;
    for (const Field field : fields) {
        const Scale& scale = scales[static_cast<std::size_t>(field)];
        if (state.of(field).size() == 0 || scale.top <= scale.low) {
            continue;
        }
        figures += fmt::format(
            R"({}"{}":"{}")",
            figures.empty() ? "" : ",",
            key_of(field),
            base64(packed_figures(factor_of(field, unit) * state.of(field), scale.low, scale.top))
        );
    }
    return fmt::format(
        R"({{"name":"{}","mesh":{},"points":"{}","figures":{{{}}}}})",
        state.name,
        mesh,
        base64(packed_points(*state.positions, cube)),
        figures
    );
}

} // namespace

std::string view_data(
    const process::JobResult& result, const std::vector<ViewState>& states, units::LengthUnit unit
) {
    if (states.empty()) {
        return {};
    }
    std::vector<Scale> scales;
    scales.reserve(fields.size());
    for (const Field field : fields) {
        scales.push_back(scale_of(states, field, factor_of(field, unit)));
    }
    std::vector<const Eigen::Matrix3Xd*> shapes;
    shapes.reserve(states.size());
    for (const ViewState& state : states) {
        shapes.push_back(state.positions);
    }
    const Cube cube = cube_round(shapes);
    Meshes meshes;
    std::string state_texts;
    for (const ViewState& state : states) {
        const std::size_t mesh = meshes.place_of(process::mesh_of(result, state.step));
        state_texts += state_texts.empty() ? "" : ",\n";
        state_texts += state_text(state, mesh, cube, scales, unit);
    }
    std::string mesh_texts;
    for (const grid::SheetMesh* mesh : meshes.list) {
        mesh_texts += (mesh_texts.empty() ? "" : ",\n") + mesh_text(*mesh, unit);
    }
    return fmt::format(
        "{{\"unit\":\"{}\",\"cube\":{{\"low\":[{:.7g},{:.7g},{:.7g}],\"span\":{:.7g}}},\n"
        "\"colours\":\"{}\",\n\"first\":\"{}\",\n\"fields\":[{}],\n"
        "\"meshes\":[{}],\n\"states\":[{}]}}",
        tables::unit_word(unit),
        cube.low.x(),
        cube.low.y(),
        cube.low.z(),
        cube.span,
        colours_text(),
        first_key(states, scales),
        fields_text(scales, unit),
        mesh_texts,
        state_texts
    );
}

} // namespace flangewright::part_view
