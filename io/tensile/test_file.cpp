#include "io/tensile/test_file.hpp"

#include "io/key_file/text_file.hpp"
#include "io/tensile/csv_table.hpp"
#include "io/units/stress.hpp"

#include <algorithm>
#include <array>
#include <span>

namespace flangewright::tensile {

namespace {

using key_file::InputProblem;

constexpr double n_per_lbf = 4.448222;

enum class Meaning { strain, extension, stress, load, width_strain, width };

/// One name a column may have, in small letters; its numbers times the factor are mm, N, MPa or -.
struct ColumnName {
    std::string_view name;
    Meaning meaning;
    double factor;
};

constexpr std::array column_names{
    ColumnName{"strain", Meaning::strain, 1},
    ColumnName{"strain_percent", Meaning::strain, 0.01},
    ColumnName{"extension_mm", Meaning::extension, 1},
    ColumnName{"extension_in", Meaning::extension, units::mm_per_inch},
    ColumnName{"stress_mpa", Meaning::stress, 1},
    ColumnName{"stress_ksi", Meaning::stress, units::mpa_per_ksi},
    ColumnName{"load_n", Meaning::load, 1},
    ColumnName{"load_kn", Meaning::load, 1000},
    ColumnName{"load_lbf", Meaning::load, n_per_lbf},
    ColumnName{"width_strain", Meaning::width_strain, 1},
    ColumnName{"width_strain_percent", Meaning::width_strain, 0.01},
    ColumnName{"width_mm", Meaning::width, 1},
    ColumnName{"width_in", Meaning::width, units::mm_per_inch}};

constexpr const char* along_names = "strain, strain_percent, extension_mm or extension_in";
constexpr const char* pull_names = "stress_MPa, stress_ksi, load_N, load_kN or load_lbf";

using Column = std::optional<std::vector<double>>;

/// Takes columns by meaning out of the table, and says what is missing.
class Columns {
public:
    Columns(CsvTable table, std::string file) : table_(std::move(table)), file_(std::move(file)) {}

    /// Numbers of the first column with this meaning, in the program's units.
    Column take(Meaning meaning) {
        for (const ColumnName& column : column_names) {
            for (std::size_t i = 0; column.meaning == meaning && i < table_.names.size(); ++i) {
                if (small_letters(table_.names[i]) != column.name) {
                    continue;
                }
                std::vector<double> numbers = table_.columns[i];
                for (double& number : numbers) {
                    number *= column.factor;
                }
                taken_.push_back(i);
                return numbers;
            }
        }
        return std::nullopt;
    }

    /// A name that would do, were its unit there: "stress".
    [[nodiscard]] std::optional<std::string> without_unit(std::span<const char* const> stems
    ) const {
        for (const std::string& name : table_.names) {
            const std::string small = small_letters(name);
            for (const char* stem : stems) {
                if (small == stem || small.starts_with(std::string(stem) + " ")
                    || small.starts_with(std::string(stem) + "(")) {
                    return name;
                }
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] std::vector<std::string> left_over() const {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < table_.names.size(); ++i) {
            if (std::ranges::find(taken_, i) == taken_.end()) {
                names.push_back(table_.names[i]);
            }
        }
        return names;
    }

    [[nodiscard]] InputProblem
    names_problem(const std::string& key, std::string found, std::string allowed) const {
        return {
            file_,
            table_.names_line,
            0,
            key,
            std::move(found),
            std::move(allowed),
            "name the columns with their units, see docs/materials.md"};
    }

    [[nodiscard]] const CsvTable& table() const { return table_; }

private:
    CsvTable table_;
    std::string file_;
    std::vector<std::size_t> taken_;
};

InputProblem size_problem(const std::string& option, const std::string& why) {
    return {
        "command line",
        0,
        0,
        option,
        "nothing",
        "the strip's size before the test",
        "write it like " + option + " \"12.5 mm\", since " + why};
}

void divide(std::vector<double>& numbers, double by) {
    for (double& number : numbers) {
        number /= by;
    }
}

InputProblem missing(
    const Columns& columns,
    std::span<const char* const> stems,
    const std::string& key,
    const std::string& allowed
) {
    const std::optional<std::string> bare = columns.without_unit(stems);
    return columns.names_problem(bare.value_or(key), bare ? "no unit" : "no such column", allowed);
}

Result<std::vector<double>, InputProblem> strain_of(Columns& columns, const StripSizes& sizes) {
    if (const Column strain = columns.take(Meaning::strain)) {
        return *strain;
    }
    Column extension = columns.take(Meaning::extension);
    if (!extension) {
        constexpr std::array stems{"extension", "strain", "elongation"};
        return tl::unexpected(missing(columns, stems, "strain", along_names));
    }
    if (!sizes.gauge_length) {
        return tl::unexpected(size_problem("--gauge-length", "the file has extensions"));
    }
    divide(*extension, *sizes.gauge_length);
    return *extension;
}

Result<std::vector<double>, InputProblem> stress_of(Columns& columns, const StripSizes& sizes) {
    if (const Column stress = columns.take(Meaning::stress)) {
        return *stress;
    }
    Column load = columns.take(Meaning::load);
    if (!load) {
        constexpr std::array stems{"stress", "load", "force"};
        return tl::unexpected(missing(columns, stems, "stress", pull_names));
    }
    if (!sizes.width) {
        return tl::unexpected(size_problem("--width", "the file has loads"));
    }
    if (!sizes.thickness) {
        return tl::unexpected(size_problem("--thickness", "the file has loads"));
    }
    divide(*load, *sizes.width * *sizes.thickness);
    return *load;
}

/// Empty when there is no such column.
Result<std::vector<double>, InputProblem>
width_strain_of(Columns& columns, const StripSizes& sizes) {
    if (const Column strain = columns.take(Meaning::width_strain)) {
        return *strain;
    }
    Column width = columns.take(Meaning::width);
    if (!width) {
        constexpr std::array stems{"width"};
        if (columns.without_unit(stems)) {
            return tl::unexpected(missing(
                columns, stems, "width", "width_strain, width_strain_percent, width_mm or width_in"
            ));
        }
        return std::vector<double>{};
    }
    const double first = sizes.width.value_or(width->front());
    if (first <= 0) {
        return tl::unexpected(size_problem("--width", "the width column does not begin with it"));
    }
    for (double& at : *width) {
        at = at / first - 1;
    }
    return *width;
}

} // namespace

Result<TestFile, InputProblem>
test_from(std::string_view text, const std::string& file, const StripSizes& sizes) {
    if (const auto problem = key_file::encoding_problem(text, file)) {
        return tl::unexpected(*problem);
    }
    Result<CsvTable, InputProblem> table = csv_table(text, file);
    if (!table) {
        return tl::unexpected(table.error());
    }
    Columns columns(std::move(*table), file);
    const auto strain = strain_of(columns, sizes);
    if (!strain) {
        return tl::unexpected(strain.error());
    }
    const auto stress = stress_of(columns, sizes);
    if (!stress) {
        return tl::unexpected(stress.error());
    }
    const auto width_strain = width_strain_of(columns, sizes);
    if (!width_strain) {
        return tl::unexpected(width_strain.error());
    }
    return TestFile{{*strain, *stress, *width_strain}, columns.table().lines, columns.left_over()};
}

Result<TestFile, InputProblem>
read_test_file(const std::filesystem::path& path, const StripSizes& sizes) {
    const auto text = key_file::read_text_file(path, {"tensile test", 50'000'000});
    if (!text) {
        return tl::unexpected(text.error());
    }
    return test_from(*text, path.string(), sizes);
}

} // namespace flangewright::tensile
