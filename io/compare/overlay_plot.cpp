#include "io/compare/overlay_plot.hpp"

#include "io/sheet_page/html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::compare {

namespace {

constexpr double width = 900;
constexpr double height = 400;
constexpr double left = 62;
constexpr double right = 846;
constexpr double top = 46;
constexpr double bottom = 346;

/// Both axes: least, most, step.
struct Frame {
    std::array<double, 3> along{};
    std::array<double, 3> up{};

    [[nodiscard]] double x(double at) const {
        return left + (at - along[0]) / (along[1] - along[0]) * (right - left);
    }
    [[nodiscard]] double y(double at) const {
        return bottom - (at - up[0]) / (up[1] - up[0]) * (bottom - top);
    }
};

std::string number_text(double value, double step) {
    const double cleaned = std::abs(value) < 1e-9 * step ? 0 : value;
    return fmt::format("{:.{}f}", cleaned, step < 0.1 ? 2 : (step < 1 ? 1 : 0));
}

std::string text(double x, double y, const std::string& look, const std::string& words) {
    return fmt::format(
        "<text x=\"{:.1f}\" y=\"{:.1f}\" {}>{}</text>\n", x, y, look, sheet_page::safe(words)
    );
}

std::string line(double x1, double y1, double x2, double y2, const std::string& look) {
    return fmt::format(
        "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" {}/>\n", x1, y1, x2, y2, look
    );
}

std::string axes(const OverlayPlot& plot, const Frame& frame) {
    std::string drawn;
    for (double at = frame.up[0]; at <= frame.up[1] + 1e-9 * frame.up[2]; at += frame.up[2]) {
        const bool is_zero = std::abs(at) < 1e-9 * frame.up[2];
        drawn += line(
            left, frame.y(at), right, frame.y(at), is_zero ? "class=\"zero\"" : "class=\"grid\""
        );
        drawn +=
            text(left - 8, frame.y(at) + 5, "text-anchor=\"end\"", number_text(at, frame.up[2]));
    }
    const double last = frame.along[1];
    const double step = frame.along[2];
    for (double at = std::ceil(frame.along[0] / step - 1e-9) * step; at <= last + 1e-9 * step;
         at += step) {
        drawn += line(frame.x(at), bottom, frame.x(at), bottom + 5, "class=\"zero\"");
        drawn += text(frame.x(at), bottom + 22, "text-anchor=\"middle\"", number_text(at, step));
    }
    drawn += line(left, bottom, right, bottom, "class=\"zero\"");
    drawn += text(left - 54, 20, "class=\"title\"", plot.title + ", " + plot.up_title);
    return drawn
        + text(0.5 * (left + right), height - 10, "text-anchor=\"middle\"", plot.along_title);
}

std::string curve_of(const PlotLine& drawn, const Frame& frame) {
    std::string points;
    for (std::size_t i = 0; i < drawn.curve.station.size(); ++i) {
        points += fmt::format(
            "{:.1f},{:.1f} ", frame.x(drawn.curve.station[i]), frame.y(drawn.curve.value[i])
        );
    }
    const Stroke stroke = stroke_of(drawn.number);
    return fmt::format(
        "<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2.6\"{}/>\n",
        points,
        stroke.colour,
        stroke.dashes.empty() ? "" : " stroke-dasharray=\"" + stroke.dashes + "\""
    );
}

/// Numbers at the curves' ends, moved apart where they would cover each other.
std::string end_numbers(const std::vector<const PlotLine*>& lines, const Frame& frame) {
    struct End {
        double y;
        double wanted;
        std::size_t number;
        double x;
    };
    constexpr double apart = 16;
    std::vector<End> ends;
    for (const PlotLine* drawn : lines) {
        const double y = frame.y(drawn->curve.value.back());
        ends.push_back({y, y, drawn->number, frame.x(drawn->curve.station.back())});
    }
    std::ranges::stable_sort(ends, {}, &End::y);
    for (std::size_t i = 1; i < ends.size(); ++i) {
        ends[i].y = std::max(ends[i].y, ends[i - 1].y + apart);
    }
    const double over = ends.empty() ? 0 : std::max(0.0, ends.back().y - bottom);
    std::string drawn;
    for (const End& end : ends) {
        const double y = end.y - over;
        const std::string colour = stroke_of(end.number).colour;
        drawn += line(
            end.x + 2, end.wanted, right + 16, y, "stroke=\"" + colour + "\" stroke-width=\"1\""
        );
        drawn += text(
            right + 19,
            y + 5,
            "font-weight=\"bold\" fill=\"" + colour + "\"",
            std::to_string(end.number + 1)
        );
    }
    return drawn;
}

std::array<double, 2>
range_of(const std::vector<const PlotLine*>& lines, std::vector<double> Curve::*values) {
    double least = HUGE_VAL;
    double most = -HUGE_VAL;
    for (const PlotLine* drawn : lines) {
        for (const double value : drawn->curve.*values) {
            least = std::min(least, value);
            most = std::max(most, value);
        }
    }
    return {least, most};
}

/// 1, 2 or 5 times a power of ten, so that there are four to nine steps.
double round_step(double span) {
    const double power = std::pow(10.0, std::floor(std::log10(span / 4)));
    for (const double step : {5.0, 2.0}) {
        if (span / (step * power) >= 4) {
            return step * power;
        }
    }
    return power;
}

} // namespace

Stroke stroke_of(std::size_t number) {
    constexpr std::array<const char*, 6> colours{
        "#186078", "#cc6600", "#5b2a86", "#3f7d20", "#202020", "#a0355a"};
    constexpr std::array<const char*, 4> dashes{"", "9 4", "2 4", "12 4 2 4"};
    return {colours.at(number % colours.size()), dashes.at(number % dashes.size())};
}

std::array<double, 3> round_axis(double least, double most) {
    const double middle = 0.5 * (least + most);
    constexpr double narrowest = 0.5; // deg or %: of flat curves only noise would be seen
    const double half = std::max(0.5 * (most - least), narrowest);
    const double step = round_step(2.1 * half);
    return {
        std::floor((middle - 1.02 * half) / step) * step,
        std::ceil((middle + 1.02 * half) / step) * step,
        step};
}

std::string overlay_plot(const OverlayPlot& plot) {
    std::vector<const PlotLine*> lines;
    for (const PlotLine& drawn : plot.lines) {
        if (drawn.curve.station.size() > 1) {
            lines.push_back(&drawn);
        }
    }
    if (lines.empty()) {
        return {};
    }
    const std::array<double, 2> along = range_of(lines, &Curve::station);
    const std::array<double, 2> up = range_of(lines, &Curve::value);
    Frame frame;
    frame.along = {along[0], along[1], round_step(along[1] - along[0])};
    frame.up = round_axis(up[0], up[1]);
    std::string drawn = fmt::format(
        "<svg class=\"plot\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-label=\"{}\">\n",
        width,
        height,
        sheet_page::safe(plot.title)
    );
    drawn += axes(plot, frame);
    for (const PlotLine* each : lines) {
        drawn += curve_of(*each, frame);
    }
    return drawn + end_numbers(lines, frame) + "</svg>\n";
}

} // namespace flangewright::compare
