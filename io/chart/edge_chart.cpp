#include "io/chart/edge_chart.hpp"

#include "io/chart/chart_frame.hpp"
#include "io/tables/shown_length.hpp"
#include "io/vtk/canvas.hpp"
#include "io/vtk/colour_scale.hpp"

#include <fmt/format.h>
#include <vtkAxis.h>
#include <vtkChartXY.h>
#include <vtkNew.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace flangewright::chart {

namespace {

/// Lowest and highest stretch on the axis; a line at zero stays clear of the frame.
std::array<double, 2> stretch_range(const EdgeChart& chart) {
    double least = std::min(0.0, chart.by_hand_percent);
    double most = std::max(0.0, chart.by_hand_percent);
    for (const double stretch : chart.stretch_percent) {
        least = std::min(least, stretch);
        most = std::max(most, stretch);
    }
    most = std::max(most, chart.allowed_percent.value_or(most));
    const double high = most > 0 ? vtk::round_up(1.12 * most) : 0.0;
    const double low = least < 0 ? vtk::round_up(-1.12 * least) : 0.0;
    const double clear = 0.03 * std::max(high, low);
    return {-std::max(low, clear), std::max(high, clear)};
}

constexpr int caption_size = 26;

/// Pixels above the paper's foot at which a stretch stands.
double height_of(double stretch, const std::array<double, 2>& range) {
    return bottom + (stretch - range[0]) / (range[1] - range[0]) * (top - bottom);
}

/// Where the words about the computed curve stand: share of the axis, pixels above the foot.
struct PeakPlace {
    double peak = 0; ///< the computed stretch largest in size
    double middle = 0;
    double height = 0;
    static constexpr double half_width = 0.12;
};

/// Near the peak and clear of the curve: beneath it where there is room, else above.
PeakPlace peak_place(const EdgeChart& chart, const std::array<double, 2>& range) {
    const auto along = [&chart](std::size_t k) {
        return (chart.stations[k] - chart.stations.front())
            / (chart.stations.back() - chart.stations.front());
    };
    const auto peak = std::ranges::max_element(chart.stretch_percent, {}, [](double stretch) {
        return std::abs(stretch);
    });
    PeakPlace place;
    place.peak = *peak;
    place.middle = std::clamp(
        along(static_cast<std::size_t>(peak - chart.stretch_percent.begin())),
        PeakPlace::half_width + 0.01,
        0.99 - PeakPlace::half_width
    );
    double low = *peak;
    double high = *peak;
    for (std::size_t k = 0; k < chart.stations.size(); ++k) {
        if (std::abs(along(k) - place.middle) <= PeakPlace::half_width) {
            low = std::min(low, chart.stretch_percent[k]);
            high = std::max(high, chart.stretch_percent[k]);
        }
    }
    const bool is_below = *peak > 0 && height_of(low, range) - bottom > 60;
    place.height = is_below ? height_of(low, range) - 44 : height_of(high, range) + 16;
    return place;
}

void add_peak(vtk::Canvas& canvas, const PeakPlace& place) {
    canvas.add_text(
        fmt::format("computed, at most {} %", tables::shown_number(place.peak, 1)),
        {.x = (left + place.middle * (right - left)) / vtk::Canvas::width,
         .y = place.height / vtk::Canvas::height,
         .size = caption_size,
         .is_bold = true,
         .is_centred = true,
         .colour = {0.09, 0.38, 0.47}}
    );
}

/// Words beside each level line instead of a key box.
struct Caption {
    std::string text;
    double stretch = 0;
    vtk::Colour colour;
    bool is_below = false;
};

/// All that the captions must keep clear of.
struct Surroundings {
    const EdgeChart& chart;
    std::array<double, 2> range{};
    PeakPlace peak;
};

void add_caption(vtk::Canvas& canvas, const Surroundings& around, const Caption& caption) {
    const double height = height_of(caption.stretch, around.range) + (caption.is_below ? -36 : 12);
    LevelCaption level{.level = caption.stretch};
    level.width = 0.55 * caption_size * static_cast<double>(caption.text.size()) / (right - left);
    if (std::abs(height - around.peak.height) < 1.5 * caption_size) {
        const double half = PeakPlace::half_width + 0.02;
        level.taken = {around.peak.middle - half, around.peak.middle + half};
    }
    const double x = left + caption_place(around.chart, level) * (right - left);
    canvas.add_text(
        caption.text,
        {.x = x / vtk::Canvas::width,
         .y = height / vtk::Canvas::height,
         .size = caption_size,
         .is_on_white = true,
         .colour = caption.colour}
    );
}

void add_captions(vtk::Canvas& canvas, const Surroundings& around) {
    const double hand = around.chart.by_hand_percent;
    const double allowed = around.chart.allowed_percent.value_or(hand);
    const bool is_tight = std::abs(hand - allowed) < 0.07 * (around.range[1] - around.range[0]);
    const bool is_hand_below = around.chart.allowed_percent && is_tight && hand <= allowed;
    add_caption(
        canvas,
        around,
        {"by hand " + tables::shown_number(hand, 1) + " %", hand, {0.4, 0.4, 0.4}, is_hand_below}
    );
    if (around.chart.allowed_percent) {
        add_caption(
            canvas,
            around,
            {fmt::format("allowed {:.1f} %", allowed),
             allowed,
             {0.1, 0.1, 0.1},
             is_tight && allowed < hand}
        );
    }
}

/// Stations along the foot, and what the part does at both ends.
void add_foot(vtk::Canvas& canvas, const EdgeChart& chart) {
    constexpr double y = 0.082;
    const double middle = 0.5 * (left + right) / vtk::Canvas::width;
    canvas.add_text(chart.station_title, {.x = middle, .y = y, .size = 26, .is_centred = true});
    canvas.add_text(
        chart.start_words,
        {.x = left / vtk::Canvas::width, .y = y, .size = 24, .colour = {0.38, 0.38, 0.38}}
    );
    canvas.add_text(
        chart.end_words,
        {.x = (right - 0.5 * 24 * static_cast<double>(chart.end_words.size())) / vtk::Canvas::width,
         .y = y,
         .size = 24,
         .colour = {0.38, 0.38, 0.38}}
    );
}

} // namespace

double caption_place(const EdgeChart& chart, const LevelCaption& caption) {
    constexpr int n_places = 40;
    constexpr double air = 0.05;
    const double first = chart.stations.front();
    const double span = chart.stations.back() - first;
    double best = air;
    double widest_gap = -1;
    for (int i = 0; i <= n_places; ++i) {
        const double from = air + (1 - caption.width - 2 * air) * i / n_places;
        const double to = from + caption.width;
        if (from < caption.taken[1] && to > caption.taken[0]) {
            continue;
        }
        double gap = std::numeric_limits<double>::max();
        for (std::size_t k = 0; k < chart.stations.size(); ++k) {
            const double along = (chart.stations[k] - first) / span;
            if (along >= from - air && along <= to + air) {
                gap = std::min(gap, std::abs(chart.stretch_percent[k] - caption.level));
            }
        }
        if (gap > widest_gap * (1 + 1e-9)) {
            widest_gap = gap;
            best = from;
        }
    }
    return best;
}

std::string edge_chart(const EdgeChart& chart) {
    if (chart.stations.size() < 2 || chart.stretch_percent.size() != chart.stations.size()) {
        return {};
    }
    vtk::Canvas canvas(chart.text);
    const std::array<double, 2> range = stretch_range(chart);
    const std::vector<double> ends{chart.stations.front(), chart.stations.back()};
    vtkNew<vtkChartXY> drawing;
    fill_frame(*drawing);
    if (chart.allowed_percent) {
        const double allowed = *chart.allowed_percent;
        add_line(*drawing, ends, {allowed, allowed}, {{26, 26, 26}, 3});
    }
    const double hand = chart.by_hand_percent;
    add_line(*drawing, ends, {hand, hand}, {{110, 110, 110}, 2.5F});
    add_line(*drawing, chart.stations, chart.stretch_percent, {{24, 96, 120}, 5});
    set_axis(*drawing->GetAxis(vtkAxis::BOTTOM), ends[0], ends[1]);
    set_axis(*drawing->GetAxis(vtkAxis::LEFT), range[0], range[1]);
    show(canvas, *drawing);
    const PeakPlace peak = peak_place(chart, range);
    add_captions(canvas, {chart, range, peak});
    add_peak(canvas, peak);
    add_foot(canvas, chart);
    canvas.add_text("Edge stretch, %", {.x = 0.03, .y = 0.825, .size = 26});
    return canvas.png();
}

} // namespace flangewright::chart
