#include "io/coupon/edge_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::coupon {

namespace {

using key_file::InputProblem;

constexpr std::size_t least_pairs = 3; // common practice, no source
constexpr double least_limit = 0.005; // as the sheet's file allows
constexpr double micrometer = 0.02; // mm

void question_thickness(EdgeReading& reading, const PairReading& pair, double sheet_thickness) {
    const auto thickness_at = [&](double r) {
        return sheet_thickness * std::pow(1 + pair.stretch(), -1 / (1 + r));
    };
    const double least = std::min(thickness_at(0.5), thickness_at(2)) - micrometer;
    const double most = std::max(thickness_at(0.5), thickness_at(2)) + micrometer;
    if (*pair.thickness < least || *pair.thickness > most) {
        reading.questions.push_back({pair, least, most});
    }
}

std::optional<InputProblem> look_at_thickness(
    EdgeReading& reading,
    const std::vector<PairReading>& pairs,
    std::optional<double> sheet_thickness,
    const std::string& file
) {
    for (const PairReading& pair : pairs) {
        if (!pair.thickness) {
            continue;
        }
        if (!sheet_thickness) {
            return InputProblem{
                "command line",
                0,
                0,
                "--thickness",
                "nothing",
                "the sheet's thickness before the test",
                "write it like --thickness \"0.81 mm\", since the file has thicknesses"};
        }
        const double share = *pair.thickness / *sheet_thickness;
        if (share < 0.3 || share > 1.5) {
            return InputProblem{
                file,
                pair.line,
                0,
                "thickness",
                fmt::format("{:.3g} mm of a sheet of {:.3g} mm", *pair.thickness, *sheet_thickness),
                "0.3 to 1.5 of the sheet's thickness",
                "check the column's unit and --thickness"};
        }
        question_thickness(reading, pair, *sheet_thickness);
    }
    return std::nullopt;
}

InputProblem nothing_borne(const PairReading& cracked, const std::string& file) {
    return {
        file,
        cracked.line,
        0,
        "cracked",
        fmt::format(
            "a crack at {:.1f} % and no whole pair that was stretched less", 100 * cracked.stretch()
        ),
        "at least one whole pair below the first crack",
        "measure pairs where the bend line is flatter, or bend a coupon with larger radii"};
}

InputProblem too_little(const PairReading& borne, const std::string& file) {
    return {
        file,
        borne.line,
        0,
        "after",
        fmt::format("{:.2f} % as the largest stretch borne", 100 * borne.stretch()),
        fmt::format("{:g} % or more", 100 * least_limit),
        "check which distance is before and which after; a test must stretch the edge"};
}

} // namespace

Result<EdgeReading, InputProblem> edge_reading(
    const std::vector<PairReading>& pairs,
    std::optional<double> sheet_thickness,
    const std::string& file
) {
    if (pairs.size() < least_pairs) {
        return tl::unexpected(InputProblem{
            file,
            0,
            0,
            "file",
            fmt::format("{} pairs of marks", pairs.size()),
            fmt::format("{} or more", least_pairs),
            "measure more pairs, on both sides of the first crack"});
    }
    EdgeReading reading;
    reading.n_pairs = static_cast<int>(pairs.size());
    reading.shortest_gauge = std::ranges::min(pairs, {}, &PairReading::before).before;
    for (const PairReading& pair : pairs) {
        if (pair.is_cracked && (!reading.cracked || pair.stretch() < reading.cracked->stretch())) {
            reading.cracked = pair;
        }
    }
    std::optional<PairReading> borne;
    for (const PairReading& pair : pairs) {
        if (pair.is_cracked) {
            continue;
        }
        if (reading.cracked && pair.stretch() >= reading.cracked->stretch()) {
            reading.borne_beyond.push_back(pair);
        } else if (!borne || pair.stretch() > borne->stretch()) {
            borne = pair;
        }
    }
    if (!borne) {
        return tl::unexpected(nothing_borne(*reading.cracked, file));
    }
    if (borne->stretch() < least_limit) {
        return tl::unexpected(too_little(*borne, file));
    }
    reading.borne = *borne;
    if (const auto problem = look_at_thickness(reading, pairs, sheet_thickness, file)) {
        return tl::unexpected(*problem);
    }
    return reading;
}

} // namespace flangewright::coupon
