// A program of its own on flangewright's libraries: how far does a straight flange of soft sheet
// spring back, computed and by hand? Lengths in mm, stresses in MPa, angles in rad. Data invented.
#include "solver/material/hardening_law.hpp"
#include "solver/process/run_job.hpp"

#include <algorithm>
#include <cstdio>

int main() {
    using namespace flangewright;
    const auto laws = material::hardening_laws();
    const auto swift = std::ranges::find(laws, "swift", &material::HardeningEntry::name);
    job::Job job;
    job.sheet.material.youngs_modulus = 73'000;
    job.sheet.material.poisson_ratio = 0.33;
    job.sheet.material.hardening = swift->make(swift->example);
    job.sheet.thickness = 0.8;
    job.blank = {.line = outline::BendLine::straight(6), .web_width = 15, .flange_width = 14};
    job.blank.start = job.blank.end = job::EndKind::continues; // a slice of a long part
    job.block.nose_radius = 2.4;
    job.drive.corner_radius = 3;
    job.drive.clearance = 1.4;
    job.accuracy = job::Accuracy::quick;
    const auto result = process::run_job(job, {}, {});
    if (!result || !result->steps.back().findings.springback) {
        std::fputs("no answer\n", stderr);
        return 1;
    }
    constexpr double degree = 0.0174533;
    const double computed = result->steps.back().findings.springback->mean / degree;
    std::printf(
        "springback %.2f deg, by hand %.2f\n", computed, result->by_hand.springback / degree
    );
    return computed > 0 ? 0 : 1;
}
