// Published checks: compares a figure with its reference and leaves a record of it, from which
// docs/verification.md is put together (docs/verification/page.cmake).
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace flangewright::support {

/// What is compared with what. All texts are short and free of `|`, `;` and square brackets.
struct Figure {
    std::string table = {}; ///< of docs/verification/page.md, by its mark
    std::string check = {}; ///< problem and condition
    std::string source =
        {}; ///< key of docs/sources.md and standing: read, second-hand, memory, computed
    std::string figure = {}; ///< what is compared, with its unit
    std::string mesh = {};
    double reference = 0;
    double measured = 0;

    /// The same check, another figure of it.
    [[nodiscard]] Figure of(std::string name, double found, double expected) const {
        Figure other = *this;
        other.figure = std::move(name);
        other.measured = found;
        other.reference = expected;
        return other;
    }
};

/// How far the measured value may lie from the reference: relative unless said otherwise.
struct Band {
    double width = 0.02;
    /// A known deviation, in the same measure: the figure misses what is asked, the check bounds it
    /// from both sides by `width`. `asked` says in words what was missed.
    double about = 0;
    std::string asked = {};
    bool is_absolute = false;
};

/// measured / reference - 1, or measured - reference.
[[nodiscard]] double deviation(const Figure& figure, const Band& band);

/// Records the figure and fails the running test when it lies outside its band.
void compare(const Figure& figure, const Band& band);

/// Records a figure that is shown and not judged, e.g. of a coarser mesh.
void show(const Figure& figure);

/// compare() for the finest mesh, show() for coarser ones.
inline void compare_finest(bool is_finest, const Figure& figure, const Band& band) {
    is_finest ? compare(figure, band) : show(figure);
}

/// Largest relative deviation of several figures of one check.
class Worst {
public:
    void add(double measured, double reference) {
        value_ = std::max(value_, std::abs(measured / reference - 1));
        ++n_;
    }
    [[nodiscard]] double value() const { return value_; }
    [[nodiscard]] int n() const { return n_; }

private:
    double value_ = 0;
    int n_ = 0;
};

/// Records the largest deviation and fails the running test when it exceeds `width`. Check, source
/// and mesh are taken from `like`.
void compare_worst(const Figure& like, const Worst& worst, double width);

/// How far a curve lies from its reference.
struct Apart {
    double most = 0; ///< with its sign, ours less reference
    double at = 0; ///< where, mm
    double rms = 0; ///< over the length
    int n = 0; ///< places compared
};

/// How far a curve may lie from its reference, in the figure's own unit.
struct CurveBand {
    double most = 0; ///< either way about `about`
    double rms = 0;
    /// As of Band: a known deviation of `most`, and what was missed.
    double about = 0;
    std::string asked = {};
};

/// Records a curve of the part held on the block and of the released part, and fails the running
/// test when one of them lies outside the band.
void compare_curves(
    const Figure& like, const Apart& held, const Apart& released, const CurveBand& band
);

} // namespace flangewright::support
