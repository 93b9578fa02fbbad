#include "io/sheet_page/record_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/sheet_page/lay_sketch.hpp"
#include "io/tables/edge_words.hpp"
#include "io/units/angle.hpp"

#include <algorithm>

namespace flangewright::sheet_page {

namespace {

std::string field(const std::string& head, const std::string& filled = {}) {
    return "<th>" + head + "</th><td>" + safe(filled) + "</td>";
}

std::string two(const std::string& first, const std::string& second) {
    return "<tr>" + first + second + "</tr>\n";
}

bool has(const job::Job& job, job::StepKind kind) {
    return std::ranges::find(job.steps, kind) != job.steps.end();
}

std::string lay_words(const job::Job& job) {
    return tables::shown_number(units::degrees(job.sheet.rolling_direction), 0)
        + " deg from the bend line, toward the flange, as the case has it. Mark the arrow on the "
          "blank; as it was cut:";
}

} // namespace

std::string record_part(const tables::RunFacts& facts, const job::Job& job) {
    const case_file::LogEntry& log = facts.log;
    return section(
        "log",
        "The part",
        "<table><tbody>\n" + two(field("Drawing, issue", log.drawing), field("Part", log.part))
            + two(field("Material lot", log.lot), field("Certificate", log.certificate))
            + two(field("Thickness, measured"), field("Edge finish, as done"))
            + two(field("Coupon bent, result"), field("Blocks used"))
            + two(field("Formed by, date"), field("Checked by, date"))
            + "</tbody></table>\n<div class=\"lay\">" + lay_sketch(job.sheet.rolling_direction)
            + "<p>Rolling direction: " + lay_words(job) + " <span class=\"pen\"></span></p></div>\n"
    );
}

std::string heat_record_part(const job::Job& job) {
    const bool is_annealed = has(job, job::StepKind::anneal);
    const bool is_treated = has(job, job::StepKind::heat_treat);
    if (!is_annealed && !is_treated) {
        return {};
    }
    std::string rows;
    if (is_annealed) {
        rows += two(field("Anneal: temperature, time"), field("Cooled how, by whom"));
    }
    if (is_treated) {
        rows += two(field("Solution: temperature"), field("Soak, from and to"))
            + two(field("Out of heat to quench, s"), field("Quench, its temperature"))
            + two(field("Straightened, from and to"), field("Aged: temperature, time"))
            + two(field("Coupon: hardness"), field("Coupon: conductivity"));
    }
    return section(
        "log",
        "Heat treatment, as done",
        "<table><tbody>\n" + rows + two(field("Heat treater, charge"), field("Certificate"))
            + "</tbody></table>\n"
    );
}

} // namespace flangewright::sheet_page
