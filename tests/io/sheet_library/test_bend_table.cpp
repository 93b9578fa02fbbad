// The bend tables of the library, as the verdict reads them. Source: aluminum-design-manual-2005,
// Table 3-1, and the tables named in each sheet's file.
#include "io/sheet_library/sheet_library.hpp"
#include "solver/findings/verdict.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::sheet_library {
namespace {

/// What is said of a straight bend over this nose that is as uneven as bends are.
findings::VerdictWord word_of_bend(job::Job job, double radius_over_thickness) {
    const double t = job.sheet.thickness;
    job.block.nose_radius = radius_over_thickness * t;
    findings::PartFindings part;
    part.bend_strain_used = std::log1p(findings::uneven_bend * t / (2 * job.block.nose_radius + t));
    for (const findings::LimitUse& use : findings::judge(job, std::span(&part, 1)).limits) {
        if (use.place == findings::bend_place) {
            return use.word;
        }
    }
    return findings::VerdictWord::unknown;
}

TEST(BendTable, HoldsAtTheTabulatedRadiusAndNotAtHalfOfIt) {
    int n_rows = 0;
    for (const KnownSheet& sheet : known_sheets()) {
        job::Job job = support::ring_job();
        job.sheet.material = sheet.material;
        const bool is_published = sheet.material.bend_grade == material::DataGrade::published;
        for (const material::BendLimit& row : sheet.material.bend_limits) {
            if (row.radius_over_thickness > 0 && is_published) {
                SCOPED_TRACE(sheet.material.name + ", " + std::to_string(row.thickness) + " mm");
                job.sheet.thickness = row.thickness;
                EXPECT_EQ(
                    word_of_bend(job, row.radius_over_thickness), findings::VerdictWord::holds
                );
                EXPECT_NE(
                    word_of_bend(job, 0.5 * row.radius_over_thickness), findings::VerdictWord::holds
                );
                ++n_rows;
            }
        }
    }
    RecordProperty("rows", n_rows);
    EXPECT_GT(n_rows, 40);
}

} // namespace
} // namespace flangewright::sheet_library
