// The sheets the program knows by name: built into it, or a user's own.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "solver/material/sheet_material.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::sheet_library {

/// A sheet with what its data sheet says beside the curve.
struct KnownSheet {
    material::SheetMaterial material;
    std::string file_name; ///< without folder
    std::vector<std::string> other_names;
    material::Sourced youngs_modulus; ///< MPa
    material::Sourced poisson_ratio;
    material::Sourced proof_stress; ///< 0.2 %, MPa; a user's file may leave it out
    material::Sourced tensile_strength; ///< MPa; same
};

/// Sheets by name, and what is wrong with those that had to be left out.
struct Library {
    std::vector<KnownSheet> sheets;
    std::vector<key_file::InputProblem> problems;
};

/// The built-in ones, by name. Units: MPa, strains as plain numbers. Source: each entry names its
/// own. Fails: InternalError when a built-in file is wrong.
[[nodiscard]] std::vector<KnownSheet> built_in_sheets();

/// From now on these are the known sheets. Call it before anything is looked up: what was found
/// before is gone. Units, source: as above. Fails: never.
void use_library(Library library);

/// All sheets in use, by name: the built-in ones until use_library. Units, source, fails: as above.
[[nodiscard]] std::span<const KnownSheet> known_sheets();

/// By name or other name, names first and the user's own before others; case, blanks and hyphens
/// don't matter. Units: none. Source: as above.
/// Fails: nullptr when there is none.
[[nodiscard]] const KnownSheet* find_sheet(std::string_view name);

/// Names that resemble, best first; all when none does. Units: none. Source: as above. Fails:
/// never.
[[nodiscard]] std::vector<std::string> resembling_names(std::string_view name);

/// Sorts by name. Units: none. Source: none needed. Fails: never.
void sort_by_name(std::vector<KnownSheet>& sheets);

/// "2024-O", "2024 o" and "2024O" all give "2024o". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string bare_name(std::string_view name);

/// The sheet's name; of a user's own with "(your own data: FILE)" behind it. Units: none. Source:
/// the material. Fails: never.
[[nodiscard]] std::string name_with_origin(const material::SheetMaterial& material);

/// A built-in data file.
struct DataFile {
    std::string_view name;
    std::string_view text;
};

/// The files of io/sheet_library/data (written by the build). Units: none. Source: the folder.
/// Fails: never.
[[nodiscard]] std::span<const DataFile> data_files();

} // namespace flangewright::sheet_library
