// Which small amounts make a surface flat, when it is known what each of them does to its heights.
#pragma once

#include <Eigen/Core>

namespace flangewright::process {

/// Heights at places, what a unit of each amount adds to them, and what does not count.
struct FlatFit {
    Eigen::VectorXd heights; ///< mm
    Eigen::MatrixXd influence; ///< mm per unit; places x amounts
    Eigen::MatrixXd planes; ///< places x 1 to 3: a shift, and the tilts that are free
    Eigen::VectorXd weight; ///< of each place, > 0
    Eigen::VectorXd amounts; ///< there already
    double most = 0.03; ///< size of an amount, those there included
    /// Weight on the amounts over the largest effect that amounts of size 1 can have.
    double damping = 0.05;
};

/// The heights less the plane nearest to them, times the roots of the weights over their sum: its
/// norm is the root mean square of what is not flat. Units: mm. Source: least squares, textbook.
/// Fails: never.
[[nodiscard]] Eigen::VectorXd out_of_flat(const FlatFit& fit, const Eigen::VectorXd& heights);

/// What to add to the amounts: least squares of what is not flat, with a small weight on the size
/// of all amounts so that neighbours do not fight each other; amounts beyond `most` are held there
/// and the others found anew. Units: -. Source: Tikhonov's least squares, textbook; derived here
/// (docs/theory.md, "Cure of the web"). Fails: never; no effect, nothing to add.
[[nodiscard]] Eigen::VectorXd flattening_amounts(const FlatFit& fit);

} // namespace flangewright::process
