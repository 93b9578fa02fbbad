#include "io/tables/edge_words.hpp"

#include <algorithm>

namespace flangewright::tables {

std::string word_for(std::optional<material::EdgeFinish> finish) {
    return finish ? material::word_for(*finish) : "not stated";
}

std::string edge_words(const job::Job& job) {
    const std::string words = word_for(job.blank.edge_finish) + " as cut";
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

} // namespace flangewright::tables
