#include "io/command_line/solve_for_check.hpp"

#include "io/command_line/solve_for_words.hpp"
#include "io/command_line/words.hpp"
#include "io/tables/shown_length.hpp"
#include "io/units/angle.hpp"
#include "io/units/percent.hpp"
#include "solver/process/slice_share.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

std::string check_words(const Question& question, const process::JobResult& run, bool is_found) {
    std::string text = is_found ? "Check run, the whole part on the case's own mesh:\n"
                                : "That run, the whole part on the case's own mesh, no answer:\n";
    const std::optional<double> angle = process::loose_angle(run);
    std::vector<std::vector<std::string>> rows;
    if (angle) {
        const std::string error = run.mesh_error
            ? fmt::format(
                "the mesh leaves +-{} deg open",
                tables::shown_error(units::degrees(run.mesh_error->flange_angle), 2)
            )
            : "what the mesh leaves open is not known";
        rows.push_back({"flange angle, mean away from free ends", angle_text(*angle), error});
    }
    const findings::Verdict& verdict = run.verdict;
    rows.push_back(
        {"share of the limit used",
         verdict.share_used ? units::percent_text(*verdict.share_used, 1) : "not known",
         findings::word_for(verdict.word)}
    );
    text += as_columns(rows) + as_lines(verdict.because);
    const bool is_coarse = question.is_angle() && run.mesh_error
        && run.mesh_error->flange_angle > question.search.figure_tolerance;
    if (is_coarse) {
        text += as_lines("The mesh leaves more open than the tolerance asked for: a finer one "
                         "(accuracy = \"fine\") may put the value elsewhere.");
    }
    for (const std::string& warning : run.warnings) {
        text += as_lines(warning);
    }
    return text;
}

} // namespace flangewright::command_line
