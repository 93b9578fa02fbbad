#include "solver/process/drive_passes.hpp"

#include "solver/process/fold.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::process {

namespace {

constexpr double square = 0.5 * std::numbers::pi;

double full_stroke(const job::Job& job) {
    const WiperStroke stroke = make_wiper(
        job.block.nose_radius, job.drive, job.sheet.thickness, job.blank.width_with_tabs()
    );
    stroke.move_to(1);
    return stroke.wiper->underside();
}

} // namespace

std::string word_for(job::DriveOrder order) {
    switch (order) {
    case job::DriveOrder::from_start:
        return "from start";
    case job::DriveOrder::from_end:
        return "from end";
    case job::DriveOrder::ends_first:
        return "ends first";
    case job::DriveOrder::evenly:
        break;
    }
    return "evenly";
}

bool has_passes(const job::Drive& drive) {
    return drive.order != job::DriveOrder::evenly || drive.passes.size() > 1;
}

std::vector<double> pass_angles(const job::Drive& drive) {
    return drive.passes.empty() ? std::vector<double>{drive.angle} : drive.passes;
}

double wiper_underside(const job::Job& job, double angle) {
    const double full = full_stroke(job);
    if (angle >= square) {
        return full;
    }
    const double t = job.sheet.thickness;
    const double nose = job.block.nose_radius;
    const double corner = job.drive.corner_radius;
    const double face = nose + job.drive.clearance * t;
    const double sine = std::sin(angle);
    const double cosine = std::cos(angle);
    // Tangent to the outer face of the straight flange, both measured from the nose's centre.
    const double rise = (nose + t + corner - (face + corner) * sine) / cosine;
    const double along = (face + corner) * cosine - rise * sine;
    const double straight = std::max(0.0, job.blank.width_with_tabs() - angle * (nose + 0.5 * t));
    if (along <= straight) {
        return std::max(rise - corner - nose, full);
    }
    // The edge on the round corner; on the upright face when the channel is too wide for the angle.
    const double edge_distance = (nose + t) * sine + straight * cosine;
    const double edge_height = (nose + t) * cosine - straight * sine - nose;
    const double inward = face + corner - edge_distance;
    if (inward >= corner) {
        return full;
    }
    return std::max(edge_height + std::sqrt(corner * corner - inward * inward) - corner, full);
}

std::vector<double> pass_strokes(const job::Job& job) {
    const bool is_wiper = job.drive.kind == job::DriveKind::wiper;
    std::vector<double> strokes{is_wiper ? job.sheet.thickness : 0};
    for (const double angle : pass_angles(job.drive)) {
        strokes.push_back(is_wiper ? wiper_underside(job, angle) : angle);
    }
    return strokes;
}

std::vector<double> pass_ends(const job::Job& job) {
    const std::vector<double> strokes = pass_strokes(job);
    const auto n_passes = static_cast<double>(strokes.size() - 1);
    // An even wiper always sets out for its full stroke and is stopped on the way.
    const bool is_even = job.drive.order == job::DriveOrder::evenly;
    const bool is_wiper = job.drive.kind == job::DriveKind::wiper;
    const double whole = (is_wiper ? full_stroke(job) : strokes.back()) - strokes.front();
    std::vector<double> ends;
    for (std::size_t i = 1; i < strokes.size(); ++i) {
        ends.push_back(
            is_even ? (strokes[i] - strokes.front()) / whole : static_cast<double>(i) / n_passes
        );
    }
    return ends;
}

tooling::WorkedStretch stretch_of(const job::Job& job) {
    // A cut end leans past its station as the flange turns: the front runs on past it.
    const double past_end = 0.25 * job.blank.flange_width;
    tooling::WorkedStretch stretch{-past_end, job.blank.line.length() + past_end, job.drive.front};
    switch (job.drive.order) {
    case job::DriveOrder::ends_first:
        stretch.from = tooling::FrontFrom::both_ends;
        break;
    case job::DriveOrder::from_end:
        stretch.from = tooling::FrontFrom::end;
        break;
    case job::DriveOrder::from_start:
    case job::DriveOrder::evenly:
        break;
    }
    return stretch;
}

} // namespace flangewright::process
