#include "io/units/gauge.hpp"

#include "io/units/length.hpp"

#include <algorithm>
#include <array>

namespace flangewright::units {

namespace {

struct Gauge {
    int number;
    double inch;
};

constexpr std::array gauges{
    Gauge{22, 0.025}, Gauge{20, 0.032}, Gauge{18, 0.040}, Gauge{16, 0.050}, Gauge{14, 0.064}};

} // namespace

bool is_gauge(std::string_view text) {
    const std::optional<SplitNumber> split = split_number(text);
    return split && (split->unit == "gauge" || split->unit == "ga");
}

Written read_gauge(std::string_view text) {
    const std::optional<SplitNumber> split = split_number(text);
    const double number = split ? split->number : 0;
    const auto found = std::find_if(gauges.begin(), gauges.end(), [number](const Gauge& gauge) {
        return gauge.number == number;
    });
    if (found == gauges.end()) {
        return tl::unexpected(NotUnderstood{
            "22, 20, 18, 16 or 14 gauge of aluminium sheet",
            "measure the sheet and write its thickness, like \"0.032 in\""});
    }
    return found->inch * mm_per_inch;
}

} // namespace flangewright::units
