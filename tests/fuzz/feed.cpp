#include "tests/fuzz/feed.hpp"

#include "io/case_file/case_file.hpp"
#include "io/key_file/document.hpp"
#include "io/sheet_library/material_reader.hpp"
#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace flangewright::fuzz {

namespace {

using key_file::InputProblem;

bool is_one_line(const std::string& text) {
    return std::ranges::none_of(text, [](char c) {
        return static_cast<unsigned char>(c) < ' ' || c == '\x7f';
    });
}

void check_problems(const std::vector<InputProblem>& problems) {
    check(!problems.empty(), "a refusal says why");
    for (const InputProblem& problem : problems) {
        check(problem.line >= 0 && problem.column >= 0, "a place counts from 1");
        check(!problem.key.empty(), "a problem names its key");
        check(!problem.found.empty(), "a problem says what was found");
        check(!problem.allowed.empty(), "a problem says what is allowed");
        check(!problem.remedy.empty(), "a problem says what to do");
        const std::string line = key_file::line_for(problem);
        check(is_one_line(line), "a problem is one line");
        check(line.size() < 2000, "a problem can be read");
    }
}

bool is_length(double value) {
    return std::isfinite(value) && value > 0;
}

void check_material(const material::SheetMaterial& material) {
    check(is_length(material.youngs_modulus), "a modulus is positive and finite");
    check(std::isfinite(material.poisson_ratio), "a Poisson ratio is finite");
    check(material.hardening != nullptr, "a sheet has a curve");
    for (const double plastic_strain : {0.0, 1e-6, 0.002, 0.1, 1.0, 3.0}) {
        const material::FlowStress flow = material.hardening->at(plastic_strain);
        check(std::isfinite(flow.stress) && flow.stress > 0, "a flow stress is positive");
        check(std::isfinite(flow.slope), "the slope of a curve is finite");
    }
    check(
        material.back_stresses.size() <= material::n_back_stresses_most,
        "a sheet has three back stresses at most"
    );
    for (const material::BackStress& back : material.back_stresses) {
        check(is_length(back.stiffness), "a back stress starts with a slope");
        check(std::isfinite(back.recall) && back.recall >= 0, "a back stress is recalled or stays");
    }
}

void check_job(const job::Job& job) {
    check_material(job.sheet.material);
    check(is_length(job.sheet.thickness), "a thickness is positive and finite");
    check(std::isfinite(job.sheet.rolling_direction), "a direction is finite");
    check(is_length(job.blank.line.length()), "a bend line has a length");
    check(std::isfinite(job.blank.line.tightest_curvature()), "a curvature is finite");
    check(is_length(job.blank.web_width), "a web has a width");
    check(is_length(job.blank.flange_width), "a flange has a width");
    check(is_length(job.block.nose_radius), "a nose has a radius");
    check(is_length(job.block.wall_angle), "a wall has an angle");
    check(job.block.backing_setback >= 0, "a setback is not negative");
    check(is_length(job.drive.clearance), "a gap is positive and finite");
    check(job.drive.corner_radius >= 0, "a corner is not hollow");
    check(is_length(job.drive.angle), "a drive goes somewhere");
    check(job.drive.angle <= job.block.wall_angle + 1e-6, "a drive stops at the wall");
    check(!job.steps.empty(), "a job has a step");
}

} // namespace

void feed_case(std::string_view text) {
    const case_file::CaseFileResult result = case_file::read_case_text(text, "case");
    if (result) {
        check_job(result->job);
    } else {
        check_problems(result.error());
    }
}

void feed_material(std::string_view text) {
    const auto document = key_file::document_from(text, "sheet");
    if (!document) {
        check_problems({document.error()});
        return;
    }
    key_file::Reading reading(document->file);
    key_file::TableReader table(reading, document->root, {1, 1}, "");
    const auto material = sheet_library::read_material(table);
    table.finish();
    reading.report_unknown();
    if (material && reading.is_clean()) {
        check_material(*material);
    } else {
        check_problems(reading.sorted_problems());
    }
}

} // namespace flangewright::fuzz
