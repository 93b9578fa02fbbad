#include "io/tables/edge_words.hpp"

#include "io/tables/shown_length.hpp"
#include "solver/findings/edge_limit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace flangewright::tables {

namespace {

std::string limit_words(
    double allowed, const std::string& what, material::DataGrade grade, const std::string& source
) {
    return fmt::format(
        "{} %, {} ({}: {})",
        shown_number(100 * allowed, 1),
        what,
        material::word_for(grade),
        source.empty() ? "source not given" : source
    );
}

} // namespace

std::string word_for(std::optional<material::EdgeFinish> finish) {
    return finish ? material::word_for(*finish) : "not stated";
}

std::string edge_words(const job::Job& job) {
    const std::string words =
        word_for(job.blank.edge_finish) + (job.blank.edge_finish ? " as cut" : "");
    const bool is_trimmed = std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end();
    return is_trimmed ? words + ", " + word_for(job.trimmed_edge_finish) + " after the trim"
                      : words;
}

std::string edge_limit_words(const job::Job& job) {
    return job.blank.edge_finish
        ? "The stretch allowed is that of an edge finished so; a rougher one bears less."
        : "No finish is stated for the edge, so it is weighed against the sheet's uniform "
          "elongation. A snipped or sawn edge bears less: state it (edge in [blank]).";
}

std::string sourced_edge_limit(const job::Job& job) {
    const findings::EdgeLimit limit =
        findings::edge_limit(job.sheet.material, job.blank.edge_finish);
    return limit.bears.value
        ? limit_words(*limit.bears.value, limit.what, limit.bears.grade, limit.bears.source)
        : "not known, " + limit.what;
}

std::string edge_source_words(const findings::Verdict& verdict) {
    std::vector<std::string> told;
    std::string words;
    for (const findings::LimitUse& limit : verdict.limits) {
        if (!limit.is_cut_edge || !limit.allowed) {
            continue;
        }
        std::string line = limit_words(*limit.allowed, limit.limit_of, limit.grade, limit.source);
        if (std::ranges::find(told, line) != told.end()) {
            continue;
        }
        words += (words.empty() ? "Edge stretch allowed: " : "; ") + line;
        told.push_back(std::move(line));
    }
    return words.empty() ? words : words + ".";
}

} // namespace flangewright::tables
