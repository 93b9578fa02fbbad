// Reads a hardening law by the name and the parameters it declares itself.
#pragma once

#include "io/key_file/table_reader.hpp"
#include "solver/material/sheet_material.hpp"

namespace flangewright::sheet_library {

/// Fills law_name, law_values, hardening, fitted_to, curve_grade and curve_source from [hardening],
/// and what belongs to back stresses from [hardening.back_stress] if there is one. Units: MPa,
/// strains as plain numbers. Source: the law's own entry for keys and ranges. Fails: leaves
/// `hardening` empty; the problems are in the Reading.
void read_hardening(key_file::TableReader& material_table, material::SheetMaterial& material);

/// Fills other_curves from sections with a law's name, "[swift]" or "[voce]", beside [hardening].
/// Call after read_hardening. Units, source: as above. Fails: leaves out a curve that is wrong; the
/// problems are in the Reading.
void read_other_curves(key_file::TableReader& material_table, material::SheetMaterial& material);

/// A data grade by its word; `unknown` when it is not said. Units: none. Source: word_for.
/// Fails: a wrong word is put into the Reading, `unknown` comes back.
[[nodiscard]] material::DataGrade read_grade(key_file::TableReader& table);

/// The source text, or "source not given". Units: none. Source: the file. Fails: as read_grade.
[[nodiscard]] std::string read_source(key_file::TableReader& table);

} // namespace flangewright::sheet_library
