#include "io/command_line/limit_store.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/text_file.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/sheet_library/sheet_file.hpp"
#include "io/sheet_library/user_folder.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;
using sheet_library::KnownSheet;

Result<std::string, InputProblem> text_of_own(const fs::path& path) {
    return key_file::read_text_file(path, {"sheet", 1'000'000});
}

InputProblem out_problem(const fs::path& path, std::string found, std::string allowed) {
    return {
        path.string(),
        0,
        0,
        "--out",
        std::move(found),
        std::move(allowed),
        "name another file; nothing was changed"};
}

/// A file that is there must hold this very sheet; its values are kept.
Result<LimitTarget, InputProblem> kept_file(const fs::path& path, const KnownSheet& sheet) {
    const Result<std::string, InputProblem> text = text_of_own(path);
    if (!text) {
        return tl::unexpected(text.error());
    }
    const sheet_library::SheetFile held =
        sheet_library::sheet_from(key_file::document_from(*text, path.string()));
    if (!held.sheet) {
        return tl::unexpected(held.problems.front());
    }
    if (sheet_library::bare_name(held.name) != sheet_library::bare_name(sheet.material.name)) {
        return tl::unexpected(out_problem(
            path,
            "the sheet " + key_file::quoted_excerpt(held.name),
            "a new file or one that holds " + key_file::quoted_excerpt(sheet.material.name)
        ));
    }
    return LimitTarget{path, *text, path.string(), false};
}

Result<LimitTarget, InputProblem> new_file(const fs::path& path, const KnownSheet& sheet) {
    if (!sheet.material.own_file.empty()) {
        const Result<std::string, InputProblem> text = text_of_own(sheet.material.own_file);
        return text ? Result<LimitTarget, InputProblem>(LimitTarget{
                   path, *text, sheet.material.own_file, false})
                    : tl::unexpected(text.error());
    }
    const auto files = sheet_library::data_files();
    const auto data = std::ranges::find(files, sheet.file_name, &sheet_library::DataFile::name);
    return LimitTarget{path, std::string(data->text), sheet.file_name, false};
}

std::string old_limit_text(const LimitTarget& target, material::EdgeFinish finish) {
    const sheet_library::SheetFile file =
        sheet_library::sheet_from(key_file::document_from(target.base, target.base_name));
    const auto& limits = file.sheet->material.edge_limits;
    const auto old = limits.find(finish);
    return old == limits.end() ? ""
                               : as_lines(fmt::format(
                                   "It stands in place of {} ({}: {}).",
                                   units::percent_text(*old->second.value, 1),
                                   material::word_for(old->second.grade),
                                   old->second.source
                               ));
}

} // namespace

Result<LimitTarget, InputProblem> limit_target(
    const std::optional<fs::path>& out,
    const std::optional<fs::path>& sheets,
    const sheet_library::KnownSheet& sheet
) {
    std::optional<fs::path> path = out;
    if (!path && !sheet.material.own_file.empty()) {
        path = sheet.material.own_file;
    }
    if (!path) {
        const std::optional<fs::path> folder = sheets ? sheets : sheet_library::users_own_folder();
        if (!folder) {
            return tl::unexpected(InputProblem{
                "command line",
                0,
                0,
                "--out",
                "nothing, and no home folder",
                "the path of a TOML file",
                "write it like --out own.toml"});
        }
        path = *folder / sheet.file_name;
    }
    std::error_code ignored;
    Result<LimitTarget, InputProblem> target =
        fs::exists(*path, ignored) ? kept_file(*path, sheet) : new_file(*path, sheet);
    if (target) {
        target->makes_folder = !out;
    }
    return target;
}

int store_limit(const LimitTarget& target, const coupon::MeasuredLimit& limit, Terminal& terminal) {
    const auto text = coupon::sheet_with_limit(target.base, target.base_name, limit);
    if (!text) {
        terminal.err << key_file::line_for(text.error()) << "\n";
        return bad_input;
    }
    if (target.makes_folder) {
        const auto folder = run_folder::prepare_directory(target.path.parent_path());
        if (!folder) {
            terminal.err << line_for(folder.error()) << "\n";
            return outside_trouble;
        }
    }
    const auto written = run_folder::write_whole(target.path, *text);
    if (!written) {
        terminal.err << line_for(written.error()) << "\n";
        return outside_trouble;
    }
    terminal.out << "Stored: edge_limit." << material::word_for(limit.finish) << " = "
                 << fmt::format("{:.4g} %", 100 * limit.stretch) << " in " << target.path.string()
                 << "\n"
                 << old_limit_text(target, limit.finish)
                 << as_lines(
                        "All other values there are as they were. In the folder of your own "
                        "sheets the file stands in place of the built-in sheet; another lot or "
                        "finish needs a coupon of its own."
                    );
    return done;
}

} // namespace flangewright::command_line
