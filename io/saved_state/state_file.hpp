// The file in a run's folder from which the run can go on.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"
#include "solver/process/run_state.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace flangewright::saved_state {

/// Name of the file in the folder of the results.
inline constexpr const char* file_name = "run.state";

/// The whole file: a line of text that says what it is, the body's length and checksum, the body.
/// Units: as RunState. Source: docs/hard-use.md. Fails: never.
[[nodiscard]] std::string file_bytes(const std::string& case_text, const process::RunState& run);

/// A state to go on from.
struct TakenUp {
    process::RunState run;
    std::string changed; ///< in words, what of the case is not as it was then; empty: nothing
};

/// The inverse. `file` is only its name. Of a case whose later steps have changed, the steps before
/// them are kept. Fails: with one problem, when the bytes are no state, of another form, damaged,
/// or of another case.
[[nodiscard]] Result<TakenUp, key_file::InputProblem>
state_from(std::string_view bytes, const std::string& file, const std::string& case_text);

/// Writes it whole or not at all. Fails: when the disk refuses.
[[nodiscard]] Result<std::filesystem::path> write_state(
    const std::filesystem::path& folder, const std::string& case_text, const process::RunState& run
);

/// Reads it. Nothing when the folder holds no state. Fails: as state_from(), or when the file can't
/// be read.
[[nodiscard]] Result<std::optional<TakenUp>, key_file::InputProblem>
read_state(const std::filesystem::path& folder, const std::string& case_text);

} // namespace flangewright::saved_state
