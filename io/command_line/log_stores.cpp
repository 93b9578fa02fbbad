#include "io/command_line/log_stores.hpp"

#include "io/build_log/bias_store.hpp"
#include "io/build_log/figure_words.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/refusal.hpp"
#include "io/key_file/excerpt.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

namespace fs = std::filesystem;
using key_file::InputProblem;

std::vector<build_log::BiasRow> bias_rows(const LoggedPart& part) {
    std::vector<build_log::BiasRow> rows;
    for (const build_log::Figure figure : build_log::figures) {
        const auto mean = build_log::mean_difference(part.compared, figure, part.file.job);
        if (!mean) {
            continue;
        }
        build_log::BiasRow row;
        row.date = part.around.date;
        row.sheet = build_log::as_cell(part.file.job.sheet.material.name);
        row.lot = build_log::as_cell(part.lot);
        row.part = build_log::as_cell(part.part);
        row.case_file =
            build_log::as_cell(fs::absolute(part.arguments.case_file).lexically_normal().string());
        row.figure = build_log::name_of(figure);
        row.unit = build_log::unit_of(figure);
        row.n = mean->n;
        row.mean = build_log::in_own_unit(figure, mean->mean);
        rows.push_back(row);
    }
    return rows;
}

Result<std::optional<LimitTarget>, InputProblem> place_for_limit(const LoggedPart& part) {
    if (!part.arguments.stores_limit || !part.witness.says_something) {
        return std::nullopt;
    }
    if (!part.file.job.blank.edge_finish) {
        return tl::unexpected(option_problem(
            "--store-edge-limit",
            "a case that does not say how the edge was finished",
            "a finish under [blank], edge",
            "write it there and run the case again"
        ));
    }
    if (part.lot.empty()) {
        return tl::unexpected(option_problem(
            "--lot",
            "nothing",
            "the lot the part was cut from, to store a limit",
            "write it like --lot \"A 1234\""
        ));
    }
    const std::string& name = part.file.job.sheet.material.name;
    const sheet_library::KnownSheet* sheet = sheet_library::find_sheet(name);
    if (sheet == nullptr) {
        return tl::unexpected(option_problem(
            "--store-edge-limit",
            "a sheet written out in the case, " + key_file::quoted_excerpt(name),
            "a sheet known by name",
            "write the limit into the case's own [sheet.material.edge_limit]"
        ));
    }
    return limit_target(std::nullopt, part.arguments.sheets, *sheet);
}

int keep_bias(
    const LoggedPart& part, const std::vector<build_log::BiasRow>& rows, Terminal& terminal
) {
    if (rows.empty() || !part.around.bias_file) {
        terminal.out
            << (rows.empty() ? "Nothing for the notes of earlier parts.\n"
                             : "No home folder: no notes of this part are kept.\n");
        return done;
    }
    const auto stored = build_log::store_bias(*part.around.bias_file, rows);
    if (!stored) {
        return std::visit(
            [&terminal](const auto& problem) { return refuse(problem, terminal); }, stored.error()
        );
    }
    terminal.out << "Kept for later parts: " << stored->string() << "\n";
    return done;
}

int keep_limit(
    const LoggedPart& part, const std::optional<LimitTarget>& target, Terminal& terminal
) {
    if (!part.arguments.stores_limit) {
        return done;
    }
    if (!target) {
        terminal.out << "The edge limit stays as it is.\n";
        return done;
    }
    const std::string seen = part.witness.cracked
        ? fmt::format("cracked at {:.1f} %", 100 * *part.witness.cracked)
        : std::string("no crack yet");
    return store_limit(
        *target,
        {*part.file.job.blank.edge_finish,
         part.witness.stretch,
         fmt::format(
             "part, lot {}, {}; {}, over {:.3g} mm",
             part.lot,
             part.around.date,
             seen,
             part.witness.gauge
         )},
        terminal
    );
}

} // namespace flangewright::command_line
