#include "io/build_log/edge_witness.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::build_log {

namespace {

constexpr int least_pairs = 3; // common practice, no source
constexpr double misread = 0.1; // mm
constexpr double least_limit = 0.005; // as a sheet's file allows

/// How many steps the edge went through as it was cut.
std::size_t steps_as_cut(const job::Job& job) {
    const auto changes = [](job::StepKind kind) {
        return kind == job::StepKind::trim || kind == job::StepKind::anneal
            || kind == job::StepKind::heat_treat;
    };
    return static_cast<std::size_t>(std::ranges::find_if(job.steps, changes) - job.steps.begin());
}

std::string percent(double stretch) {
    return fmt::format("{:.1f} %", 100 * stretch);
}

/// Whether the bracket and the limit known so far contradict each other, in words.
void judge(EdgeWitness& witness, const std::optional<double>& known) {
    const double sure = witness.stretch - misread / witness.gauge;
    if (witness.stretch < least_limit) {
        witness.because = "The edge was hardly stretched where it stayed whole.";
    } else if (!known) {
        witness.says_something = true;
        witness.because = "No limit of this finish was known.";
    } else if (witness.cracked && *witness.cracked <= *known) {
        witness.says_something = true;
        witness.because = fmt::format(
            "It cracked at {}, below the limit known so far, {}.",
            percent(*witness.cracked),
            percent(*known)
        );
    } else if (sure > *known) {
        witness.says_something = true;
        witness.because = fmt::format(
            "It bore {}, more than the limit known so far, {}.",
            percent(witness.stretch),
            percent(*known)
        );
    } else {
        witness.because = fmt::format(
            "What it bore, {}, is not above the limit known so far, {}, by more than a reading's "
            "error, and nothing cracked below that: a part that holds within its limit does not "
            "say how much more it would bear.",
            percent(witness.stretch),
            percent(*known)
        );
    }
}

} // namespace

EdgeWitness edge_witness(
    const Readings& readings, const job::Job& job, const std::optional<double>& known_limit
) {
    EdgeWitness witness;
    const std::size_t n_steps = steps_as_cut(job);
    const auto counts = [n_steps](const Reading& row) {
        return row.has_marks() && row.step < n_steps;
    };
    for (const Reading& row : readings.rows) {
        witness.n_pairs += counts(row) ? 1 : 0;
        if (counts(row) && row.is_cracked) {
            witness.cracked = std::min(witness.cracked.value_or(row.stretch()), row.stretch());
        }
    }
    if (witness.n_pairs < least_pairs) {
        witness.because = fmt::format(
            "Only {} pairs of marks were read on the edge as cut; {} are the least.",
            witness.n_pairs,
            least_pairs
        );
        return witness;
    }
    for (const Reading& row : readings.rows) {
        const bool is_borne = counts(row) && !row.is_cracked
            && (!witness.cracked || row.stretch() < *witness.cracked);
        if (is_borne && (witness.gauge == 0 || row.stretch() > witness.stretch)) {
            witness.stretch = row.stretch();
            witness.gauge = *row.before;
        }
    }
    if (witness.gauge == 0) {
        witness.because = "No whole pair was stretched less than the first crack.";
        return witness;
    }
    judge(witness, known_limit);
    return witness;
}

} // namespace flangewright::build_log
