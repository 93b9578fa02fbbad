// Reads what a sheet bears and how it differs by direction: r-values, edge limits, forming limit.
#pragma once

#include "io/key_file/table_reader.hpp"
#include "solver/material/sheet_material.hpp"

namespace flangewright::sheet_library {

/// Fills r_values from [r_values] if it is there. Units: none. Source: the file's own texts.
/// Fails: leaves it empty when wrong; the problems are in the Reading.
void read_r_values(key_file::TableReader& material_table, material::SheetMaterial& material);

/// Fills edge_limits from [edge_limit], one value for each finish that is named.
/// Units: engineering strains as plain numbers. Source, fails: as above.
void read_edge_limits(key_file::TableReader& material_table, material::SheetMaterial& material);

/// Fills forming_limit from [forming_limit]: points [minor, major], flc0, or both, and the
/// direction of the major strain. Units: true strains as plain numbers, rad. Source, fails: as
/// above.
void read_forming_limit(key_file::TableReader& material_table, material::SheetMaterial& material);

} // namespace flangewright::sheet_library
