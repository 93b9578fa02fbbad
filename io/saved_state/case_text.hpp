// The job as lines of text: what a saved state belongs to.
#pragma once

#include "solver/job/job.hpp"

#include <cstddef>
#include <string>

namespace flangewright::saved_state {

/// All of the job that the mechanics depend on, one "key = value" a line, numbers to the last bit;
/// first the program's version and the form of the mesh. Title, close_from and how edges
/// were finished are left out: changing them changes no state. Units: mm, MPa, rad. Source: none
/// needed. Fails: never.
[[nodiscard]] std::string case_text(const job::Job& job, const std::string& program_version);

/// The lines the first steps hang on: the order of steps is cut short, and what only later steps
/// use left out. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string text_of_first_steps(const std::string& text, std::size_t n_steps);

/// The first line of `now` that `then` does not have, beside what `then` says instead, in words;
/// empty when the two are the same. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string first_difference(const std::string& then, const std::string& now);

} // namespace flangewright::saved_state
