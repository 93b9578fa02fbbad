#include "io/saved_state/state_bytes.hpp"

#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <optional>

namespace flangewright::saved_state {

namespace {

static_assert(std::endian::native == std::endian::little, "the form of the file is low byte first");

constexpr std::size_t word = 8; // bytes of every count and number

class Writer {
public:
    void number(double& value) { put(std::bit_cast<std::uint64_t>(value)); }
    void whole(int& value) { put(static_cast<std::uint64_t>(static_cast<std::int64_t>(value))); }
    void truth(bool& value) { put(value ? 1 : 0); }
    template <typename Kind>
    void kind(Kind& value, int /*n_kinds*/) {
        put(static_cast<std::uint64_t>(value));
    }
    std::size_t count(std::size_t n, std::size_t /*n_least_bytes*/) {
        put(n);
        return n;
    }
    void text(std::string& value) {
        put(value.size());
        bytes_ += value;
    }
    [[nodiscard]] std::string bytes() && { return std::move(bytes_); }

private:
    void put(std::uint64_t value) {
        char raw[word];
        std::memcpy(raw, &value, word);
        bytes_.append(raw, word);
    }

    std::string bytes_;
};

class Reader {
public:
    explicit Reader(std::string_view bytes) : rest_(bytes) {}

    void number(double& value) {
        value = std::bit_cast<double>(take());
        if (!std::isfinite(value)) {
            fail("a value that is no number");
        }
    }
    void whole(int& value) {
        const auto wide = static_cast<std::int64_t>(take());
        value = static_cast<int>(wide);
        if (value != wide) {
            fail("a count that is too large");
        }
    }
    void truth(bool& value) {
        const std::uint64_t raw = take();
        value = raw == 1;
        if (raw > 1) {
            fail("neither yes nor no");
        }
    }
    template <typename Kind>
    void kind(Kind& value, int n_kinds) {
        const std::uint64_t raw = take();
        if (raw >= static_cast<std::uint64_t>(n_kinds)) {
            fail("an unknown kind");
            return;
        }
        value = static_cast<Kind>(raw);
    }
    // How many items follow; none when the bytes left can't hold them.
    std::size_t count(std::size_t /*n*/, std::size_t n_least_bytes) {
        const std::uint64_t n = take();
        if (n > rest_.size() / n_least_bytes) {
            fail("less than it promises");
            return 0;
        }
        return n;
    }
    void text(std::string& value) {
        const std::size_t n = count(0, 1);
        value = rest_.substr(0, n);
        rest_.remove_prefix(n);
    }
    // Empty when all bytes were read and all was right.
    [[nodiscard]] std::string fault() const {
        return fault_.empty() && !rest_.empty() ? "more than it promises" : fault_;
    }

private:
    std::uint64_t take() {
        if (rest_.size() < word) {
            fail("less than it promises");
            return 0;
        }
        std::uint64_t value = 0;
        std::memcpy(&value, rest_.data(), word);
        rest_.remove_prefix(word);
        return value;
    }
    // The first fault is told; what follows it means nothing and is dropped.
    void fail(const char* fault) {
        if (fault_.empty()) {
            fault_ = fault;
        }
        rest_ = {};
    }

    std::string_view rest_;
    std::string fault_;
};

// One description serves both directions. The bindings name every member, so that a member added
// to one of these structs stops the build here: add it below and raise `form` in state_file.cpp.

template <typename Archive>
void pass(Archive& file, Eigen::VectorXd& vector) {
    const std::size_t n = file.count(static_cast<std::size_t>(vector.size()), word);
    vector.resize(static_cast<Eigen::Index>(n));
    for (double& value : vector) {
        file.number(value);
    }
}

template <typename Archive>
void pass(Archive& file, Eigen::Matrix3Xd& matrix) {
    const std::size_t n = file.count(static_cast<std::size_t>(matrix.cols()), 3 * word);
    matrix.resize(3, static_cast<Eigen::Index>(n));
    for (Eigen::Index column = 0; column < matrix.cols(); ++column) {
        for (Eigen::Index row = 0; row < 3; ++row) {
            file.number(matrix(row, column));
        }
    }
}

template <typename Archive>
void pass(Archive& file, material::PointMemory& point) {
    auto& [mean, difference, shear, equivalent] = point;
    file.number(mean);
    file.number(difference);
    file.number(shear);
    file.number(equivalent);
}

template <typename Archive>
void pass(Archive& file, material::SplitStress& stress) {
    for (double& value : stress) {
        file.number(value);
    }
}

template <typename Archive>
void pass(Archive& file, shell::FibreStretch& fibre) {
    auto& [mean, slope] = fibre;
    file.number(mean);
    file.number(slope);
}

// Each item takes at least `n_least_bytes` in the file.
template <typename Archive, typename Item>
void pass_all(Archive& file, std::vector<Item>& items, std::size_t n_least_bytes) {
    items.resize(file.count(items.size(), n_least_bytes));
    for (Item& item : items) {
        pass(file, item);
    }
}

template <typename Archive>
void pass(Archive& file, shell::SheetState& sheet) {
    auto& [positions, directors, points, fibres, back_stresses] = sheet;
    pass(file, positions);
    pass(file, directors);
    pass_all(file, points, 4 * word);
    pass_all(file, fibres, 2 * word);
    pass_all(file, back_stresses, 3 * word);
}

template <typename Archive>
void pass(Archive& file, process::StepReport& report) {
    auto& [reason, n_increments, n_iterations, n_cutbacks, n_moved, share, angle, penetration, residual] =
        report;
    file.kind(reason, 3);
    file.whole(n_increments);
    file.whole(n_iterations);
    file.whole(n_cutbacks);
    file.whole(n_moved);
    file.number(share);
    file.number(angle);
    file.number(penetration);
    file.number(residual);
}

template <typename Archive>
void pass(Archive& file, equilibrium::DeadLoads& loads) {
    auto& [on_positions, on_directors, moments] = loads;
    pass(file, on_positions);
    pass(file, on_directors);
    pass(file, moments);
}

template <typename Archive>
void pass(Archive& file, process::FinishedStep& step) {
    auto& [kind, report, sheet, held_by] = step;
    file.kind(kind, 7);
    pass(file, report);
    pass(file, sheet);
    pass(file, held_by);
}

template <typename Archive>
void pass(Archive& file, equilibrium::PathReport& report) {
    auto& [end, n_increments, n_iterations, n_cutbacks, n_indefinite, n_moved, share, residual] =
        report;
    file.kind(end, 3);
    file.whole(n_increments);
    file.whole(n_iterations);
    file.whole(n_cutbacks);
    file.whole(n_indefinite);
    file.whole(n_moved);
    file.number(share);
    file.number(residual);
}

template <typename Archive>
void pass(Archive& file, equilibrium::FrictionMemory& memory) {
    auto& [slip, normal, limit, placement] = memory;
    pass(file, slip);
    pass(file, normal);
    pass(file, limit);
    pass(file, placement);
}

template <typename Archive>
void pass(Archive& file, equilibrium::PathMemory& path) {
    auto& [report, step, last, friction] = path;
    auto& [moves, turns, share] = last;
    pass(file, report);
    file.number(step);
    pass(file, moves);
    pass(file, turns);
    file.number(share);
    pass_all(file, friction, 4 * word);
}

template <typename Archive>
void pass(Archive& file, std::optional<process::StepUnderWay>& step) {
    bool is_there = step.has_value();
    file.truth(is_there);
    if (!is_there) {
        return;
    }
    if (!step) {
        step.emplace();
    }
    auto& [sheet, path] = *step;
    pass(file, sheet);
    pass(file, path);
}

template <typename Archive>
void pass(Archive& file, shell::SheetFields& fields) {
    auto& [thickness, plastic, major_mid, minor_mid, major_block, minor_block, major_outer, minor_outer, stress_block, stress_outer, across_outer, across_block] =
        fields;
    for (Eigen::VectorXd* field :
         {&thickness,
          &plastic,
          &major_mid,
          &minor_mid,
          &major_block,
          &minor_block,
          &major_outer,
          &minor_outer}) {
        pass(file, *field);
    }
    pass(file, stress_block);
    pass(file, stress_outer);
    pass(file, across_outer);
    pass(file, across_block);
}

template <typename Archive>
void pass(Archive& file, process::Frame& frame) {
    auto& [step, share, angle, positions, fields] = frame;
    file.whole(step);
    file.number(share);
    file.number(angle);
    pass(file, positions);
    pass(file, fields);
}

template <typename Archive>
void pass(Archive& file, process::SolveFigures& spent) {
    auto& [n_dof, n_layers, n_increments, n_iterations, n_cutbacks, n_threads, all, elements, factorise, contact, bare] =
        spent;
    for (int* count : {&n_dof, &n_layers, &n_increments, &n_iterations, &n_cutbacks, &n_threads}) {
        file.whole(*count);
    }
    for (double* seconds : {&all, &elements, &factorise, &contact, &bare}) {
        file.number(*seconds);
    }
}

template <typename Archive>
void pass(Archive& file, process::PassFigures& figures) {
    auto& [wanted, angle, strain, station] = figures;
    for (double* value : {&wanted, &angle, &strain, &station}) {
        file.number(*value);
    }
}

template <typename Archive>
void pass(Archive& file, std::optional<process::DriveRecord>& record) {
    bool is_there = record.has_value();
    file.truth(is_there);
    if (!is_there) {
        return;
    }
    if (!record) {
        record.emplace();
    }
    auto& [passes, stations, stretched, shrunk] = *record;
    pass_all(file, passes, 4 * word);
    pass(file, stations);
    pass(file, stretched);
    pass(file, shrunk);
}

template <typename Archive>
void pass(Archive& file, CaseState& state) {
    auto& [case_text, run] = state;
    auto& [finished, under_way, history, drive, spent] = run;
    file.text(case_text);
    pass_all(file, finished, 16 * word);
    pass(file, under_way);
    pass_all(file, history, 16 * word);
    pass(file, drive);
    pass(file, spent);
}

// What the single values can't say.
bool is_sound(const process::RunState& run) {
    if (!run.under_way) {
        return true;
    }
    const equilibrium::PathMemory& path = run.under_way->path;
    return path.report.share_done > 0 && path.report.share_done <= 1 && path.step > 0
        && path.step <= 1 && path.last.share > 0;
}

} // namespace

std::string body_from(CaseState state) {
    Writer file;
    pass(file, state);
    return std::move(file).bytes();
}

Result<CaseState, std::string> state_from_body(std::string_view body) {
    Reader file(body);
    CaseState state;
    pass(file, state);
    if (!file.fault().empty()) {
        return tl::unexpected(file.fault());
    }
    if (!is_sound(state.run)) {
        return tl::unexpected(std::string("a step that is nowhere on its way"));
    }
    return state;
}

} // namespace flangewright::saved_state
