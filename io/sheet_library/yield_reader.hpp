// Reads which yield law a sheet has: the section [yield] of a material.
#pragma once

#include "io/key_file/table_reader.hpp"
#include "solver/material/sheet_material.hpp"

namespace flangewright::sheet_library {

/// The section [yield] with law, grade and source; none is von Mises. Call it once the hardening is
/// read: a law other than von Mises is refused beside back stresses. Units: plain numbers. Source:
/// the file. Fails: problems go to the Reading and the material stays with von Mises.
void read_yield(key_file::TableReader& material_table, material::SheetMaterial& material);

} // namespace flangewright::sheet_library
