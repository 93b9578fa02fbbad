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

/// Strips of one width, none above `widest`.
Band even_band(double begin, double end, double widest) {
    const int n = std::max(1, static_cast<int>(std::ceil((end - begin) / widest - 1e-9)));
    return {begin, end, {n, 1}};
}

/// Flange between two bends, and the second bend. A wiper's corner passes over both, and the flange
/// between them is short: even strips of the finer bend's width, or nearly.
void add_second_bend(std::vector<Band>& bands, const BlankGrid& blank, double first) {
    const double second = blank.second_bend_width / blank.n_round_second_nose;
    const double begin = blank.second_bend_begin;
    bands.push_back(even_band(blank.bend_width, begin, blank.growth * std::min(first, second)));
    const double end = begin + blank.second_bend_width;
    bands.push_back({begin, end, {blank.n_round_second_nose, 1}});
}

/// All past the first bend, whose strips are `first` wide.
void add_flange(std::vector<Band>& bands, const BlankGrid& blank, double first) {
    double beside = first;
    if (blank.second_bend_begin > 0) {
        add_second_bend(bands, blank, first);
        beside = blank.second_bend_width / blank.n_round_second_nose;
    }
    const double begin = bands.back().end;
    const double kept = kept_width(blank);
    for (Band band : bands_away(kept - begin, beside, blank.growth, blank.widest_in_flange)) {
        band.begin += begin;
        band.end += begin;
        bands.push_back(band);
    }
    bands.back().end = kept;
    if (kept < blank.flange_width) {
        const double widest = std::max(beside, blank.widest_in_flange);
        bands.push_back(even_band(kept, blank.flange_width, widest));
    }
}

} // namespace

double row_distance(const BlankGrid& blank, double row, double station) {
    const double alike = alike_width(blank);
    if (blank.flange_widths.is_empty() || row <= alike) {
        return row;
    }
    const double narrower = width_at(blank, station) - blank.flange_width;
    const double kept = kept_width(blank);
    if (row >= kept || narrower == 0) {
        return row + narrower;
    }
    const double straight = kept - alike;
    return alike + (row - alike) * (straight + narrower) / straight;
}

double row_at(const BlankGrid& blank, double distance, double station) {
    const double alike = alike_width(blank);
    if (blank.flange_widths.is_empty() || distance <= alike) {
        return distance;
    }
    const double narrower = width_at(blank, station) - blank.flange_width;
    const double straight = kept_width(blank) - alike;
    const double row = alike + (distance - alike) * straight / (straight + narrower);
    return row < kept_width(blank) ? row : distance - narrower;
}

std::vector<Band> bands_across(const BlankGrid& blank) {
    const double first = blank.bend_width / blank.n_round_nose;
    std::vector<Band> bands = bands_away(blank.web_width, first, blank.growth, blank.widest);
    std::reverse(bands.begin(), bands.end());
    for (Band& band : bands) {
        band = {-band.end, -band.begin, {band.division.n_elements, 1 / band.division.ratio}};
    }
    bands.back().end = 0; // not -0
    bands.push_back({0, blank.bend_width, {blank.n_round_nose, 1}});
    if (blank.flange_width - blank.bend_width > 1e-9 * blank.flange_width) {
        add_flange(bands, blank, first);
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
