// Reads a sheet material written out as keys: the same for case files and for the sheet library.
#pragma once

#include "io/key_file/table_reader.hpp"
#include "solver/material/sheet_material.hpp"

#include <optional>

namespace flangewright::sheet_library {

/// Everything of a material. Units: MPa, strains as plain numbers. Source: the file's own texts.
/// Fails: returns nothing when a needed value is missing or wrong; the problems are in the Reading.
[[nodiscard]] std::optional<material::SheetMaterial> read_material(key_file::TableReader& table);

/// What is allowed for Young's modulus and Poisson's ratio. Units: MPa; -. Source: common practice,
/// no source. Fails: never.
[[nodiscard]] key_file::ValueRule modulus_rule();
[[nodiscard]] key_file::ValueRule poisson_rule();

/// A value alone, or a section with value, grade and source; range and unit by `rule`.
[[nodiscard]] material::Sourced
read_sourced(key_file::TableReader& table, const key_file::ValueRule& rule);

} // namespace flangewright::sheet_library
