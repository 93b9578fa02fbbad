#include "io/sheet_page/passes_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/pass_table.hpp"
#include "io/tables/step_words.hpp"

namespace flangewright::sheet_page {

std::string
passes_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result) {
    if (!result.passes || result.passes->as_driven.stations.size() == 0) {
        return {};
    }
    const bool has_even = result.passes->even.has_value();
    std::string rows;
    for (const tables::PassRow& entry : tables::pass_rows(*result.passes, facts.unit)) {
        const std::string head = tables::with_capital(entry.head);
        rows += has_even ? row(head, {entry.as_driven, entry.even}) : row(head, {entry.as_driven});
    }
    std::string content = "<p>The flange is driven " + tables::pass_words(job.drive)
        + ".</p>\n<table class=\"numbers\"><thead><tr><th></th><th>as driven</th>"
        + (has_even ? "<th>driven evenly</th>" : "") + "</tr></thead><tbody>\n" + rows
        + "</tbody></table>\n<p class=\"note\">Edge stretch is the value largest in size, with "
          "where it is along the line. On the way counts every shape that was computed, at its own "
          "place; the verdict weighs the end of the step.</p>\n";
    return section("passes", "The drive in passes", content);
}

} // namespace flangewright::sheet_page
