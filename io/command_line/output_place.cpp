#include "io/command_line/output_place.hpp"

#include "io/command_line/run_log.hpp"
#include "io/run_folder/whole_file.hpp"

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;

OutsideProblem trouble(const fs::path& folder, std::string remedy) {
    return {"preparing the folder for the results", folder.string(), std::move(remedy)};
}

} // namespace

fs::path default_output_folder(const fs::path& case_file) {
    const fs::path whole = fs::absolute(case_file).lexically_normal();
    std::string name = whole.stem().string();
    if (name == "case" && !whole.parent_path().filename().empty()) {
        name = whole.parent_path().filename().string();
    }
    return whole.parent_path() / (name + "-result");
}

Result<fs::path> prepare_output_folder(const fs::path& folder) {
    std::error_code error;
    const fs::file_status status = fs::status(folder, error);
    if (fs::exists(status) && !fs::is_directory(status)) {
        return tl::unexpected(
            trouble(folder, "this is a file; choose another folder with --out FOLDER")
        );
    }
    if (fs::is_directory(status)) {
        const bool is_empty = fs::is_empty(folder, error);
        if (error) {
            return tl::unexpected(trouble(folder, "give yourself the right to read this folder"));
        }
        if (!is_empty && !holds_run_log(folder)) {
            return tl::unexpected(trouble(
                folder,
                "it holds files that are no result of this program and will not be overwritten; "
                "choose an empty or new folder with --out FOLDER"
            ));
        }
    }
    return run_folder::prepare_directory(folder);
}

} // namespace flangewright::command_line
