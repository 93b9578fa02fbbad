// What a finished step leaves, in the words of the sheet and the pictures.
#pragma once

#include "solver/job/job.hpp"

#include <string>

namespace flangewright::tables {

/// "on the block", "released", "annealed". Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string words_after(job::StepKind kind);

/// With a large first letter, plain letters only. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string with_capital(std::string text);

} // namespace flangewright::tables
