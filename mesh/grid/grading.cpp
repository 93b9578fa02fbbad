#include "mesh/grid/grading.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::grid {

namespace {

/// Element widths first * ratio^k, k = 1, 2, ..., none above `widest`.
struct Growth {
    double first = 0;
    double ratio = 1;
    double widest = 0;

    [[nodiscard]] double width(int k) const { return std::min(first * std::pow(ratio, k), widest); }
    [[nodiscard]] double sum(int n) const {
        double total = 0;
        for (int k = 1; k <= n; ++k) {
            total += width(k);
        }
        return total;
    }
};

/// The ratio with which n elements fill `width` exactly.
double ratio_that_fills(double width, int n, Growth growth) {
    double low = 0;
    double high = growth.ratio;
    for (int halving = 0; halving < 100; ++halving) {
        growth.ratio = 0.5 * (low + high);
        (growth.sum(n) < width ? low : high) = growth.ratio;
    }
    return growth.ratio;
}

/// Strips of a region that starts at distance 0, beside elements of width `first`.
std::vector<Band> bands_away(double width, double first, double growth, double widest) {
    if (first >= widest) {
        const int n = std::max(1, static_cast<int>(std::ceil(width / widest - 1e-9)));
        return {{0, width, {n, 1}}};
    }
    Growth sizes{first, growth, widest};
    int n = 1;
    while (sizes.sum(n) < width * (1 - 1e-9)) {
        ++n;
    }
    sizes.ratio = ratio_that_fills(width, n, sizes);
    int n_graded = 0;
    while (n_graded < n && first * std::pow(sizes.ratio, n_graded + 1) < widest) {
        ++n_graded;
    }
    if (n_graded == n) {
        return {{0, width, {n, sizes.ratio}}};
    }
    const double graded = sizes.sum(n_graded);
    std::vector<Band> bands;
    if (n_graded > 0) {
        bands.push_back({0, graded, {n_graded, sizes.ratio}});
    }
    bands.push_back({graded, width, {n - n_graded, 1}});
    return bands;
}

} // namespace

std::vector<Band> bands_across(const BlankGrid& blank) {
    const double first = blank.bend_width / blank.n_round_nose;
    std::vector<Band> bands = bands_away(blank.web_width, first, blank.growth, blank.widest);
    std::reverse(bands.begin(), bands.end());
    for (Band& band : bands) {
        band = {-band.end, -band.begin, {band.division.n_elements, 1 / band.division.ratio}};
    }
    bands.back().end = 0; // not -0
    bands.push_back({0, blank.bend_width, {blank.n_round_nose, 1}});
    const double beyond = blank.flange_width - blank.bend_width;
    if (beyond > 1e-9 * blank.flange_width) {
        const double kept = blank.cut_width > 0 ? blank.cut_width - blank.bend_width : beyond;
        for (Band band : bands_away(kept, first, blank.growth, blank.widest_in_flange)) {
            band.begin += blank.bend_width;
            band.end += blank.bend_width;
            bands.push_back(band);
        }
        if (blank.cut_width > 0) {
            bands.back().end = blank.cut_width;
            const double waste = blank.flange_width - blank.cut_width;
            const double widest = std::max(first, blank.widest_in_flange);
            const int n = std::max(1, static_cast<int>(std::ceil(waste / widest - 1e-9)));
            bands.push_back({blank.cut_width, blank.flange_width, {n, 1}});
        }
        bands.back().end = blank.flange_width;
    }
    return bands;
}

std::vector<double> distances_across(const std::vector<Band>& bands) {
    std::vector<double> distances{bands.front().begin};
    for (const Band& band : bands) {
        const auto& [n, ratio] = band.division;
        const Growth sizes{1 / ratio, ratio, std::numeric_limits<double>::infinity()};
        const double first = (band.end - band.begin) / sizes.sum(n);
        for (int k = 1; k < n; ++k) {
            distances.push_back(band.begin + first * sizes.sum(k));
        }
        distances.push_back(band.end);
    }
    return distances;
}

} // namespace flangewright::grid
