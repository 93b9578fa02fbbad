#include "tests/support/section_profile.hpp"

#include "mesh/base/check.hpp"
#include "tests/support/reference_table.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::support {

namespace {

// Half the way to the neighbours on either side.
double share_of(const std::vector<double>& places, std::size_t i) {
    const std::size_t before = i == 0 ? 0 : i - 1;
    const std::size_t after = std::min(i + 1, places.size() - 1);
    return 0.5 * (places[after] - places[before]);
}

} // namespace

double Profile::at(double place) const {
    constexpr double rounding = 1e-3; // the tables have six digits
    check(
        place > distance.front() - rounding && place < distance.back() + rounding,
        "a profile is asked within its ends"
    );
    const auto above = std::lower_bound(distance.begin() + 1, distance.end() - 1, place);
    const auto i = static_cast<std::size_t>(above - distance.begin());
    const double share = (place - distance[i - 1]) / (distance[i] - distance[i - 1]);
    return value[i - 1] + share * (value[i] - value[i - 1]);
}

SectionProfile profile_of(const process::Workpiece& piece, const shell::SheetFields& fields) {
    const grid::SheetMesh& mesh = piece.mesh;
    const Eigen::Matrix3Xd& now = piece.state.positions;
    const auto stretch = [&](int a, int b) {
        return std::log(
            (now.col(a) - now.col(b)).norm()
            / (mesh.positions.col(a) - mesh.positions.col(b)).norm()
        );
    };
    SectionProfile profile;
    for (std::size_t i = 0; i < mesh.start_end.size(); ++i) {
        const int node = mesh.start_end[i];
        const double distance = mesh.distance(node);
        profile.hoop.distance.push_back(distance);
        profile.hoop.value.push_back(stretch(node, mesh.far_end[i]));
        profile.thickness.distance.push_back(distance);
        profile.thickness.value.push_back(fields.thickness(node) / piece.job.sheet.thickness);
        if (i > 0) {
            const int before = mesh.start_end[i - 1];
            profile.meridional.distance.push_back(0.5 * (distance + mesh.distance(before)));
            profile.meridional.value.push_back(stretch(node, before));
        }
    }
    return profile;
}

SectionProfile solid_profile(const ReferenceTable& table, const std::string& state) {
    SectionProfile profile;
    for (std::size_t row = 0; row < table.n_rows(); ++row) {
        const double distance = table.number(row, "distance");
        const double hoop = table.number(row, "hoop_" + state);
        const double thickness = table.number(row, "thickness_" + state);
        profile.hoop.value.push_back(hoop);
        profile.thickness.value.push_back(thickness);
        profile.meridional.value.push_back(-hoop - std::log(thickness));
        profile.hoop.distance.push_back(distance);
    }
    profile.thickness.distance = profile.meridional.distance = profile.hoop.distance;
    return profile;
}

Apart apart(const Profile& ours, const Profile& reference, const Stretch& where) {
    Apart apart;
    double squares = 0;
    double length = 0;
    for (std::size_t i = 0; i < ours.distance.size(); ++i) {
        const double place = ours.distance[i];
        if (!where.has(place)) {
            continue;
        }
        const double difference = ours.value[i] - reference.at(place);
        if (std::abs(difference) > std::abs(apart.most)) {
            apart.most = difference;
            apart.at = place;
        }
        const double share = share_of(ours.distance, i);
        squares += share * difference * difference;
        length += share;
        ++apart.n;
    }
    check(apart.n > 0, "profiles are compared at some places");
    apart.rms = std::sqrt(squares / length);
    return apart;
}

} // namespace flangewright::support
