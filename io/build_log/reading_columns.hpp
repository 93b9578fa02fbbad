// Which column of a table of readings holds which quantity, and in which unit.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "io/tensile/csv_table.hpp"
#include "mesh/base/result.hpp"

#include <array>
#include <optional>
#include <string>

namespace flangewright::build_log {

enum class Quantity : std::size_t {
    step,
    station,
    angle,
    thickness,
    before,
    after,
    web_lift,
    cracked
};
inline constexpr std::size_t n_quantities = 8;

/// Columns by quantity; a quantity may have none.
class ReadingColumns {
public:
    /// The figure of a row. Units: mm, rad; of words their number. Fails: empty where the cell is,
    /// or where the table has no such column.
    [[nodiscard]] std::optional<double>
    at(Quantity quantity, const tensile::CsvTable& table, std::size_t row) const;

    [[nodiscard]] bool has(Quantity quantity) const {
        return index_[place_of(quantity)].has_value();
    }
    void set(Quantity quantity, std::size_t column, double factor);

private:
    static std::size_t place_of(Quantity quantity) { return static_cast<std::size_t>(quantity); }

    std::array<std::optional<std::size_t>, n_quantities> index_;
    std::array<double, n_quantities> factor_{};
};

/// Finds the columns by their names, like "angle_deg" or "station_in". Source: docs/build-log.md,
/// "The table of readings". Fails: at the first name that is unknown, stands twice or lacks its
/// unit, without `step`, and with only one of `before` and `after`.
[[nodiscard]] Result<ReadingColumns, key_file::InputProblem>
reading_columns(const tensile::CsvTable& table, const std::string& file);

} // namespace flangewright::build_log
