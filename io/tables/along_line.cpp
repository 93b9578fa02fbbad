#include "io/tables/along_line.hpp"

#include <algorithm>

namespace flangewright::tables {

double figure_at(
    const std::vector<findings::StationFindings>& stations,
    double station,
    double findings::StationFindings::*member
) {
    if (stations.empty()) {
        return 0;
    }
    const auto after =
        std::ranges::lower_bound(stations, station, {}, &findings::StationFindings::station);
    if (after == stations.begin()) {
        return stations.front().*member;
    }
    if (after == stations.end()) {
        return stations.back().*member;
    }
    const auto before = after - 1;
    const double share = (station - before->station) / (after->station - before->station);
    return (1 - share) * ((*before).*member) + share * ((*after).*member);
}

} // namespace flangewright::tables
