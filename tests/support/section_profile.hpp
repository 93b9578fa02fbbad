// What a slice of a flange shows along its section, web edge to free edge, and how far two such
// profiles lie apart.
#pragma once

#include "solver/process/workpiece.hpp"
#include "tests/support/verification_record.hpp"

#include <string>
#include <vector>

namespace flangewright::support {

class ReferenceTable;

/// A figure over the flat distance past the bend tangent, mm. Distances grow.
struct Profile {
    std::vector<double> distance;
    std::vector<double> value;

    /// Straight between its places. Fails: beyond its ends.
    [[nodiscard]] double at(double place) const;
};

/// Strains logarithmic.
struct SectionProfile {
    Profile hoop; ///< mid-surface strain along the bend line
    Profile meridional; ///< mid-surface strain square to it, in the middle of each element
    Profile thickness; ///< over that of the flat sheet
};

/// Of a slice between two planes of symmetry. Source: derived here: on a ring the chord between
/// the planes grows as the radius does.
[[nodiscard]] SectionProfile
profile_of(const process::Workpiece& piece, const shell::SheetFields& fields);

/// The solid's profile in one state, `held` or `released`; its meridional strain is the mean over
/// the thickness, -hoop - ln(thickness ratio), as plastic flow keeps the volume.
[[nodiscard]] SectionProfile solid_profile(const ReferenceTable& table, const std::string& state);

/// Part of the section, flat distances in mm, or what lies outside it.
struct Stretch {
    double from = 0;
    double to = 0;
    bool is_left_out = false;

    [[nodiscard]] bool has(double place) const {
        return is_left_out != (place >= from && place <= to);
    }
};

/// The first less the second, at the places of the first. Fails: without a place in the stretch.
[[nodiscard]] Apart apart(const Profile& ours, const Profile& reference, const Stretch& where);

} // namespace flangewright::support
