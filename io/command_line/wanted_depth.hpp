// The flange depth that templates shall form to: the drawing's in the case, or the command line's.
#pragma once

#include "io/case_file/case_file.hpp"

#include <optional>
#include <string>

namespace flangewright::command_line {

/// Takes `depth` (a length as written; empty: not given) into the case, in the place of what the
/// case says. Units: mm. Source: docs/templates.md. Fails: with what is wrong about it: no length,
/// too shallow or too deep for the part, or a part with a return lip.
[[nodiscard]] std::optional<key_file::InputProblem>
take_depth(const std::string& depth, case_file::CaseFile& file);

/// The depth over the station, one point where it is alike all along; nothing where the case states
/// only a flat width. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] std::optional<outline::Profile> wanted_depth(const case_file::CaseFile& file);

} // namespace flangewright::command_line
