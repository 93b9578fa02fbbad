// Reads the tables of tests/published/data: head lines that begin with #, a line of column names,
// rows of numbers with a first column of text where a table has one.
#pragma once

#include "mesh/base/check.hpp"

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace flangewright::support {

/// A table of text cells; numbers are read as they are asked for.
class ReferenceTable {
public:
    /// Reads `name`.csv of tests/published/data.
    explicit ReferenceTable(const std::string& name) {
        std::ifstream file(
            std::string(FLANGEWRIGHT_SOURCE_DIR) + "/tests/published/data/" + name + ".csv"
        );
        std::string line;
        while (std::getline(file, line)) {
            if (line.empty() || line.front() == '#') {
                continue;
            }
            (columns_.empty() ? columns_ : rows_.emplace_back()) = cells_of(line);
        }
        check(!rows_.empty(), "a table of published values can be read");
    }

    [[nodiscard]] std::size_t n_rows() const { return rows_.size(); }
    [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const {
        return rows_.at(row).at(index_of(column));
    }
    [[nodiscard]] double number(std::size_t row, const std::string& column) const {
        return std::stod(text(row, column));
    }
    /// The number of the row whose first cell is `name`.
    [[nodiscard]] double of(const std::string& name, const std::string& column) const {
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            if (rows_[row].front() == name) {
                return number(row, column);
            }
        }
        check(false, "the row of a published value exists");
        return 0;
    }

    /// The number of the row where another column has this value.
    [[nodiscard]] double at(const std::string& key, double value, const std::string& column) const {
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            if (std::abs(number(row, key) - value) < 1e-9) {
                return number(row, column);
            }
        }
        check(false, "the row of a published value exists");
        return 0;
    }

private:
    static std::vector<std::string> cells_of(const std::string& line) {
        std::vector<std::string> cells;
        std::istringstream stream(line);
        std::string cell;
        while (std::getline(stream, cell, ',')) {
            cells.push_back(cell);
        }
        return cells;
    }
    [[nodiscard]] std::size_t index_of(const std::string& column) const {
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (columns_[i] == column) {
                return i;
            }
        }
        check(false, "the column of a published value exists");
        return 0;
    }

    std::vector<std::string> columns_;
    std::vector<std::vector<std::string>> rows_;
};

} // namespace flangewright::support
