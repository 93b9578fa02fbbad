// The sheets the program knows by name, built into it.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::sheet_library {

/// A sheet with what its data sheet says beside the curve.
struct KnownSheet {
    material::SheetMaterial material;
    std::vector<std::string> other_names;
    material::Sourced youngs_modulus; ///< MPa
    material::Sourced poisson_ratio;
    material::Sourced proof_stress; ///< 0.2 %, MPa
    material::Sourced tensile_strength; ///< MPa
};

/// All of them, by name. Units: MPa, strains as plain numbers. Source: each entry names its own.
/// Fails: InternalError when a built-in file is wrong.
[[nodiscard]] std::span<const KnownSheet> known_sheets();

/// By name or other name; case, blanks and hyphens don't matter. Units: none. Source: as above.
/// Fails: nullptr when there is none.
[[nodiscard]] const KnownSheet* find_sheet(std::string_view name);

/// Names that resemble, best first; all when none does. Units: none. Source: as above. Fails:
/// never.
[[nodiscard]] std::vector<std::string> resembling_names(std::string_view name);

/// A built-in data file.
struct DataFile {
    std::string_view name;
    std::string_view text;
};

/// The files of io/sheet_library/data (written by the build). Units: none. Source: the folder.
/// Fails: never.
[[nodiscard]] std::span<const DataFile> data_files();

} // namespace flangewright::sheet_library
