#include "io/sheet_library/user_folder.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/sheet_library/sheet_file.hpp"

#include <algorithm>
#include <cstdlib>

namespace flangewright::sheet_library {

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> sheet_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code trouble;
    fs::directory_iterator entries(folder, trouble);
    for (; !trouble && entries != fs::directory_iterator(); entries.increment(trouble)) {
        if (entries->path().extension() == ".toml") {
            files.push_back(entries->path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

bool is_same_name(const std::string& a, const std::string& b) {
    return !a.empty() && bare_name(a) == bare_name(b);
}

/// The user's sheet of this name that was read before, if any.
const KnownSheet* earlier_sheet(const Library& library, const std::string& name) {
    const auto found = std::ranges::find_if(library.sheets, [&name](const KnownSheet& sheet) {
        return !sheet.material.own_file.empty() && is_same_name(sheet.material.name, name);
    });
    return found == library.sheets.end() ? nullptr : &*found;
}

void take_file(Library& library, const fs::path& path) {
    SheetFile file = sheet_from(key_file::read_document(path));
    if (const KnownSheet* earlier = earlier_sheet(library, file.name);
        file.sheet && earlier != nullptr) {
        library.problems.push_back(
            {path.string(),
             0,
             0,
             "name",
             key_file::quoted_excerpt(file.name) + ", as in " + earlier->material.own_file,
             "a name of its own for each file of the folder",
             "give one of both another name; this file is left out"}
        );
        return;
    }
    std::erase_if(library.sheets, [&](const KnownSheet& sheet) {
        return sheet.material.own_file.empty()
            && (sheet.file_name == path.filename().string()
                || is_same_name(sheet.material.name, file.name));
    });
    if (!file.sheet) {
        key_file::InputProblem problem = file.problems.front();
        problem.remedy += "; until then this sheet is left out";
        library.problems.push_back(std::move(problem));
        return;
    }
    file.sheet->material.own_file = path.string();
    file.sheet->file_name = path.filename().string();
    library.sheets.push_back(std::move(*file.sheet));
}

} // namespace

std::optional<fs::path> users_own_folder() {
    const char* config = std::getenv("XDG_CONFIG_HOME");
    if (config != nullptr && fs::path(config).is_absolute()) {
        return fs::path(config) / "flangewright" / "sheets";
    }
    const char* home = std::getenv("HOME");
    if (home == nullptr || *home == '\0') {
        return std::nullopt;
    }
    return fs::path(home) / ".config" / "flangewright" / "sheets";
}

Library library_with(const fs::path& folder) {
    Library library{built_in_sheets(), {}};
    for (const fs::path& path : sheet_files(folder)) {
        take_file(library, path);
    }
    sort_by_name(library.sheets);
    return library;
}

} // namespace flangewright::sheet_library
