#include "io/build_log/comparison.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::build_log {

namespace {

constexpr double same_place = 0.5; // mm: the width of a pencil line

bool is_same_place(const Reading& a, const Reading& b) {
    return a.station.has_value() == b.station.has_value()
        && (!a.station || std::abs(*a.station - *b.station) <= same_place);
}

/// Predicted figures at a place.
class Places {
public:
    Places(const Prediction& prediction, const job::Job& job)
        : prediction_(prediction), job_(job) {}

    [[nodiscard]] std::optional<double> angle(const Reading& reading) const {
        return figure(reading, step_of(reading).angle, &StationPrediction::angle);
    }
    [[nodiscard]] std::optional<double> thickness(const Reading& reading) const {
        return figure(
            reading, step_of(reading).least_thickness, &StationPrediction::edge_thickness
        );
    }
    [[nodiscard]] std::optional<double> web_lift(const Reading& reading) const {
        return figure(reading, step_of(reading).web_lift, &StationPrediction::web_gap);
    }
    [[nodiscard]] std::optional<double> stretch(const Reading& reading) const {
        const double station = *reading.station;
        const outline::BendLine& line = job_.blank.line;
        const double on_line = std::clamp(station, 0.0, line.length());
        const double edge_over_line =
            1 - line.curvature(on_line) * job_.blank.flange_width_at(on_line);
        const double half = 0.5 * *reading.before / edge_over_line;
        return step_of(reading).mean_edge_stretch(station - half, station + half);
    }

private:
    [[nodiscard]] const StepPrediction& step_of(const Reading& reading) const {
        return prediction_.steps[reading.step];
    }
    [[nodiscard]] std::optional<double>
    figure(const Reading& reading, double whole, double StationPrediction::*at) const {
        return reading.station ? step_of(reading).at(*reading.station, at) : std::optional(whole);
    }

    const Prediction& prediction_;
    const job::Job& job_;
};

/// The last reading of the angle at this place on the block, before this step.
const Reading* held_before(const Readings& readings, const Reading& released, const job::Job& job) {
    const Reading* held = nullptr;
    for (const Reading& each : readings.rows) {
        if (each.angle && each.step < released.step && job::ends_on_block(job.steps[each.step])
            && is_same_place(each, released) && (held == nullptr || held->step < each.step)) {
            held = &each;
        }
    }
    return held;
}

void add(
    std::vector<Compared>& all,
    Figure figure,
    const Reading& reading,
    const std::optional<double>& predicted,
    double measured
) {
    if (predicted) {
        all.push_back({figure, reading.step, reading.station, *predicted, measured});
    }
}

} // namespace

std::vector<Compared>
compared(const Prediction& prediction, const Readings& readings, const job::Job& job) {
    const Places places(prediction, job);
    std::vector<Compared> all;
    for (const Reading& reading : readings.rows) {
        if (reading.angle) {
            add(all, Figure::angle, reading, places.angle(reading), *reading.angle);
        }
        const bool is_loose = !job::ends_on_block(job.steps[reading.step]);
        const Reading* held =
            reading.angle && is_loose ? held_before(readings, reading, job) : nullptr;
        if (held != nullptr && places.angle(*held) && places.angle(reading)) {
            add(all,
                Figure::springback,
                reading,
                *places.angle(*held) - *places.angle(reading),
                *held->angle - *reading.angle);
        }
        if (reading.web_lift) {
            add(all, Figure::web_lift, reading, places.web_lift(reading), *reading.web_lift);
        }
        if (reading.thickness) {
            add(all, Figure::thickness, reading, places.thickness(reading), *reading.thickness);
        }
        if (reading.has_marks()) {
            add(all, Figure::edge_stretch, reading, places.stretch(reading), reading.stretch());
        }
    }
    std::ranges::stable_sort(all, {}, &Compared::step);
    return all;
}

std::optional<MeanDifference>
mean_difference(const std::vector<Compared>& all, Figure figure, const job::Job& job) {
    MeanDifference result;
    for (const Compared& each : all) {
        const bool counts = each.figure == figure
            && (figure != Figure::angle || !job::ends_on_block(job.steps[each.step]));
        result.mean += counts ? each.difference() : 0;
        result.n += counts ? 1 : 0;
    }
    if (result.n == 0) {
        return std::nullopt;
    }
    result.mean /= result.n;
    return result;
}

} // namespace flangewright::build_log
