// SPDX-License-Identifier: MIT
#include "core/reduction/spool.hpp"

#include "core/geometry/propagation.hpp"
#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace bedlore {

namespace {

constexpr double pairSigma = 0.2;         // [m]
constexpr double usualB = 3e-4;           // [m/turn²]
constexpr double usualBSigma = 4e-4;      // [m/turn²]
constexpr double dimensionsSigmaA = 0.02; // share of a [M]
constexpr double dimensionsSigmaB = 0.25; // share of b: how tightly line packs is a guess [M]

/// A length of a fixed unit; a wrap is 12 ft here, since a reel has no sticks of its own.
std::optional<double> metresOf(const Entered& entered) {
    if (entered.unit == Unit::Wrap) {
        return entered.number * usual::stickSpacing.si();
    }
    const auto length = fixedLength(entered);
    return length ? std::optional(length->si()) : std::nullopt;
}

} // namespace

struct Spool::Prior {
    double b = usualB;
    double sigmaB = usualBSigma;
};

// Normal equations of D = a·N − b·N² in (a, b), each pair with weight w = 1/pairSigma².
Result<Spool> Spool::fit(std::span<const CalibrationPair> pairs, const Prior& prior) {
    const double w = 1.0 / (pairSigma * pairSigma);
    double aa = 0.0;
    double ab = 0.0;
    double bb = 1.0 / (prior.sigmaB * prior.sigmaB);
    double ya = 0.0;
    double yb = bb * prior.b;
    for (const CalibrationPair& pair : pairs) {
        const auto metres = metresOf(pair.distance);
        const double n = pair.turns;
        if (!metres || !(n > 0.0) || !(*metres > 0.0) || !std::isfinite(n * *metres)) {
            continue;
        }
        aa += w * n * n;
        ab -= w * n * n * n;
        bb += w * n * n * n * n;
        ya += w * n * *metres;
        yb -= w * n * n * *metres;
    }
    const double determinant = aa * bb - ab * ab;
    if (!(determinant > 0.0)) {
        return fail(inputError("The reel has no measured length yet: count its turns over a "
                               "length that you know, at two ranges if you can."));
    }
    Spool spool;
    spool.a_ = (ya * bb - yb * ab) / determinant;
    spool.b_ = (yb * aa - ya * ab) / determinant;
    spool.varianceA_ = bb / determinant;
    spool.varianceB_ = aa / determinant;
    spool.covariance_ = -ab / determinant;
    if (spool.b_ < 0.0) { // a spool cannot grow as line leaves: b is held at its bound
        spool.b_ = 0.0;
        spool.a_ = ya / aa;
        spool.varianceA_ = 1.0 / aa;
        spool.varianceB_ = 0.0;
        spool.covariance_ = 0.0;
    }
    return spool;
}

Result<Spool> Spool::fromCalibration(std::span<const CalibrationPair> pairs) {
    return fit(pairs, Prior{});
}

Result<Spool> Spool::fromDimensions(const SpoolDimensions& dimensions) {
    const auto diameter = fixedLength(dimensions.fullDiameter);
    const auto line = fixedLength(dimensions.lineDiameter);
    const auto traverse = fixedLength(dimensions.traverse);
    const bool usable = diameter && line && traverse && diameter->si() > 0.0 && line->si() > 0.0 &&
                        traverse->si() > 0.0 && dimensions.gearRatio > 0.0 &&
                        dimensions.packing > 0.0;
    if (!usable) {
        return fail(inputError("The spool's dimensions are not complete: diameter, gear ratio, "
                               "line diameter and width of the spool are needed."));
    }
    const double g = std::numbers::pi * dimensions.gearRatio;
    Spool spool;
    spool.a_ = g * diameter->si();
    spool.b_ = g * g * line->si() * line->si() / (4.0 * dimensions.packing * traverse->si());
    spool.varianceA_ = std::pow(dimensionsSigmaA * spool.a_, 2);
    spool.varianceB_ = std::pow(dimensionsSigmaB * spool.b_, 2);
    return spool;
}

Result<Spool> Spool::of(const Reel& reel) {
    const auto byDimensions =
        reel.spool ? fromDimensions(*reel.spool) : Result<Spool>(fail(inputError({})));
    if (!byDimensions) {
        return fromCalibration(reel.calibration);
    }
    const double b = byDimensions->b();
    const auto measured = fit(reel.calibration, {.b = b, .sigmaB = dimensionsSigmaB * b});
    return measured ? measured : byDimensions;
}

Result<MeasuredLine> Spool::lineOut(double turns) const {
    const double n = turns;
    if (!(n >= 0.0)) {
        return fail(inputError(printNumber(turns) + " turns is no count of line."));
    }
    if (!(a_ - 2.0 * b_ * n > 0.0)) {
        return fail(inputError(
            printNumber(turns) + " turns is more line than this reel can have let out, by what "
                                 "was measured on it."));
    }
    Eigen::Matrix2d covariance;
    covariance << varianceA_, covariance_, covariance_, varianceB_;
    const double variance = propagated(Eigen::RowVector2d(n, -n * n), covariance).value();
    return MeasuredLine{
        .line = (a_ * n - b_ * n * n) * metre, .sigma = std::sqrt(std::max(variance, 0.0)) * metre};
}

Result<double> Spool::turnsFor(Length line) const {
    const double d = line.si();
    const double inside = a_ * a_ - 4.0 * b_ * d;
    if (!(inside > 0.0)) {
        return fail(inputError(
            "A line of " + printLength(line, Unit::Metre) +
            " is more than this reel can have let out, by what was measured on it."));
    }
    // The smaller root of b·N² − a·N + d, in the form that also holds for b = 0.
    return 2.0 * d / (a_ + std::sqrt(inside));
}

Length Spool::perTurnAt(Length line) const {
    return std::sqrt(std::max(a_ * a_ - 4.0 * b_ * line.si(), 0.0)) * metre;
}

} // namespace bedlore
