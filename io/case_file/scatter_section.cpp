#include "io/case_file/sections.hpp"

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

// A band as a percentage of the value it belongs to.
double share(TableReader& table, const char* key, const char* reason, double when_absent) {
    if (!table.has(key)) {
        return when_absent;
    }
    return table
        .value(
            {.key = key,
             .measure = Measure::percent,
             .lowest = 0,
             .highest = 0.3,
             .reason = reason,
             .remedy =
                 "write how far it may lie off to either side, such as \"5 %\"; \"0 %\" leaves "
                 "it out",
             .need = Need::optional}
        )
        .value_or(when_absent);
}

} // namespace

job::Scatter read_scatter(TableReader& table) {
    job::Scatter scatter;
    scatter.thickness =
        share(table, "thickness", "how far the sheet may be off its thickness", scatter.thickness);
    scatter.yield_stress =
        share(table, "yield_stress", "how far another lot's yield may lie", scatter.yield_stress);
    scatter.hardening = share(
        table, "hardening", "how far another lot's rise above yield may lie", scatter.hardening
    );
    scatter.nose_radius =
        share(table, "nose_radius", "how well the block's nose is cut", scatter.nose_radius);
    if (table.has("friction")) {
        scatter.friction = table
                               .value(
                                   {.key = "friction",
                                    .lowest = 0,
                                    .highest = 0.2,
                                    .reason = "how far the coefficient itself may lie off",
                                    .remedy = "write such as 0.05; 0 leaves it out",
                                    .need = Need::optional}
                               )
                               .value_or(scatter.friction);
    }
    scatter.edge_limit =
        share(table, "edge_limit", "how far what a cut edge bears may lie off", scatter.edge_limit);
    table.finish();
    return scatter;
}

} // namespace flangewright::case_file
