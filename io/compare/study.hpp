// A study: the variants of a case, each with a case file and a run folder of its own.
#pragma once

#include "io/case_file/case_file.hpp"
#include "io/compare/variation.hpp"
#include "io/saved_state/run_mark.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace flangewright::compare {

/// A file that a variant's case names, to be laid beside it.
struct Copy {
    std::filesystem::path from;
    std::filesystem::path to;
};

/// One variant, checked: its case reads without a problem.
struct Variant {
    std::string name; ///< of its case file and its run folder, unlike all others
    std::string label; ///< what is varied, for people: "block.nose_radius = 3mm"
    std::string case_text;
    case_file::CaseFile file;
    std::filesystem::path case_path;
    std::filesystem::path run_folder;
    std::vector<Copy> copies;
    std::string run_mark; ///< a finished run with this mark needs no other
};

/// What is asked for.
struct StudyRequest {
    std::vector<std::filesystem::path> cases;
    std::vector<Variation> variations;
    std::filesystem::path folder;
    saved_state::RunMarkParts options; ///< version and options; the text is filled in
};

/// All variants in order, the case files' first, or what is wrong. Nothing is written. Units: as
/// the case file. Source: docs/choosing.md. Fails: with every problem of the first variant that has
/// one; when there are fewer than two variants, or more than 1000.
[[nodiscard]] Result<std::vector<Variant>, std::vector<key_file::InputProblem>>
plan_study(const StudyRequest& request);

/// What is set in every variant: "run.accuracy = quick"; empty for nothing.
[[nodiscard]] std::string common_settings(const std::vector<Variation>& variations);

} // namespace flangewright::compare
