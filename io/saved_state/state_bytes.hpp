// A run's state as bytes, and back with every count checked.
#pragma once

#include "mesh/base/result.hpp"
#include "solver/process/run_state.hpp"

#include <string>
#include <string_view>

namespace flangewright::saved_state {

/// A state and the case it belongs to.
struct CaseState {
    std::string case_text;
    process::RunState run;
};

/// Body of a state file: the case text, then the members of RunState in their order. Counts are
/// 8-byte integers, numbers 8-byte IEEE 754, both low byte first; a count stands before whatever
/// can have any length; a matrix is its number of columns and then column by column.
/// Units: as RunState. Source: docs/hard-use.md. Fails: never.
[[nodiscard]] std::string body_from(CaseState state);

/// The inverse. Fails: with what is wrong in a few words, for bytes that body_from() can't have
/// written; memory is only taken for what is there.
[[nodiscard]] Result<CaseState, std::string> state_from_body(std::string_view body);

} // namespace flangewright::saved_state
