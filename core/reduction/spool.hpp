// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/kit.hpp"
#include "core/units/length.hpp"

#include <span>

// Turns of a reel's handle to line, and back.

namespace bedlore {

/// A length of line and its error (1 sd).
struct MeasuredLine {
    Length line;
    Length sigma;
};

/// Line between tip and lead when `turns` more turns would bring the lead to the tip: D(N) = a·N −
/// b·N², b ≥ 0. The wound diameter falls linearly with the turns as line leaves, so the quadratic
/// is exact for an evenly wound spool.
class Spool {
public:
    /// Least squares through measured pairs, each with an sd of 0.2 m, and the prior b ~ N(3·10⁻⁴,
    /// (4·10⁻⁴)²) m/turn². Fails without a usable pair.
    [[nodiscard]] static Result<Spool> fromCalibration(std::span<const CalibrationPair> pairs);
    /// From diameter, gear ratio, line and traverse: a = π·diameter·gear, b =
    /// π²·gear²·d²/(4·packing·traverse). Taken to be right to 2 % in a and 25 % in b [M].
    [[nodiscard]] static Result<Spool> fromDimensions(const SpoolDimensions& dimensions);
    /// By the measured pairs, the dimensions where he gave them standing in for the prior of b; by
    /// the dimensions alone where nothing was measured.
    [[nodiscard]] static Result<Spool> of(const Reel& reel);

    /// Fails where the count is negative or beyond what the fit can give (a − 2bN ≤ 0).
    [[nodiscard]] Result<MeasuredLine> lineOut(double turns) const;
    /// The turns that give `line`; fails beyond the longest line of the fit.
    [[nodiscard]] Result<double> turnsFor(Length line) const;
    /// What one turn brings in with `line` still out, a − 2bN; the least that the fit can give
    /// beyond its longest line.
    [[nodiscard]] Length perTurnAt(Length line) const;

    [[nodiscard]] double a() const { return a_; } ///< [m/turn]
    [[nodiscard]] double b() const { return b_; } ///< [m/turn²]

private:
    struct Prior;
    Spool() = default;
    static Result<Spool> fit(std::span<const CalibrationPair> pairs, const Prior& prior);

    double a_ = 0.0;
    double b_ = 0.0;
    double varianceA_ = 0.0;
    double varianceB_ = 0.0;
    double covariance_ = 0.0;
};

} // namespace bedlore
