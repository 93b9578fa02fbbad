#include "io/tables/edge_words.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>

namespace flangewright::tables {

std::string word_for(job::EdgeFinish finish) {
    switch (finish) {
    case job::EdgeFinish::not_stated:
        return "not stated";
    case job::EdgeFinish::snipped:
        return "snipped";
    case job::EdgeFinish::sawn:
        return "sawn";
    case job::EdgeFinish::filed:
        return "filed";
    case job::EdgeFinish::polished:
        return "polished";
    }
    check(false, "every finish has a word");
    return {};
}

std::string edge_words(const job::Job& job) {
    const std::string words = word_for(job.blank.edge_finish) + " as cut";
    const bool is_trimmed = std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end();
    return is_trimmed ? words + ", " + word_for(job.trimmed_edge_finish) + " after the trim"
                      : words;
}

std::string edge_limit_words() {
    return "The stretch allowed here does not depend on how the edge was finished: it is the same "
           "for a snipped edge and a polished one.";
}

} // namespace flangewright::tables
