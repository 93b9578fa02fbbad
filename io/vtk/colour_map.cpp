#include "io/vtk/colour_map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace flangewright::vtk {

namespace {

using Lab = std::array<double, 3>;

/// Lightness falls straight; the hue turns from sand over green-blue to violet. The colours
/// are as strong as sRGB can show along the whole path.
Lab path(double share) {
    const double hue = (95 + 225 * share) * std::numbers::pi / 180;
    const double chroma = 23.5 + 4.5 * std::sin(std::numbers::pi * share);
    return {93 - 77 * share, chroma * std::cos(hue), chroma * std::sin(hue)};
}

double distance(const Lab& a, const Lab& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// Length of the path up to each of many even steps of its parameter.
std::vector<double> walked_lengths() {
    constexpr int n_steps = 400;
    std::vector<double> lengths{0};
    for (int i = 1; i <= n_steps; ++i) {
        const Lab before = path((i - 1.0) / n_steps);
        lengths.push_back(lengths.back() + distance(before, path(1.0 * i / n_steps)));
    }
    return lengths;
}

/// Parameter of the path where this share of its length is behind.
double parameter_at(double share) {
    static const std::vector<double> lengths = walked_lengths();
    const double wanted = std::clamp(share, 0.0, 1.0) * lengths.back();
    const auto after = std::ranges::lower_bound(lengths, wanted);
    if (after == lengths.begin()) {
        return 0;
    }
    const auto before = after - 1;
    const double part = (wanted - *before) / (*after - *before);
    const auto index = static_cast<double>(before - lengths.begin());
    return (index + part) / static_cast<double>(lengths.size() - 1);
}

double from_lab(double f) {
    return f > 6.0 / 29 ? f * f * f : 3 * std::pow(6.0 / 29, 2) * (f - 4.0 / 29);
}

double gamma(double linear) {
    const double value = std::clamp(linear, 0.0, 1.0);
    return value <= 0.0031308 ? 12.92 * value : 1.055 * std::pow(value, 1 / 2.4) - 0.055;
}

} // namespace

Lab lab_at(double share) {
    return path(parameter_at(std::isfinite(share) ? share : 0));
}

Colour colour_at(double share) {
    const Lab lab = lab_at(share);
    const double f = (lab[0] + 16) / 116;
    // White of daylight D65, for which sRGB is defined.
    const double x = 0.95047 * from_lab(f + lab[1] / 500);
    const double y = from_lab(f);
    const double z = 1.08883 * from_lab(f - lab[2] / 200);
    return {
        gamma(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
        gamma(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
        gamma(0.0556434 * x - 0.2040259 * y + 1.0572252 * z)};
}

} // namespace flangewright::vtk
