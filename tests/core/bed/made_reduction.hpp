// SPDX-License-Identifier: MIT
#pragma once

#include "core/reduction/sounding.hpp"

#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

// Reductions made from a bed given as a formula, without a book.

namespace bedlore::testing {

/// Sizes of the errors that a made reduction states (it makes none unless told to).
struct MadeErrors {
    double aimDegrees = 1.0;
    double rotationDegrees = 0.0;
    double rangeScale = 0.0;
    double rangeOffset = 0.0;
    double level = 0.0;
    double swimPlace = 0.0;
    double depth = 0.1;
    double line = 0.35;
};

/// One swim, one visit; casts are added at plane bearings.
class MadeReduction {
public:
    using Bed = std::function<double(Point)>;

    explicit MadeReduction(Bed bed, MadeErrors errors = {}, Point tip = {})
        : bed_(std::move(bed))
        , errors_(errors) {
        ReducedSwim swim;
        swim.swim = {1};
        swim.name = "A";
        swim.tip = tip;
        swim.placeSigma = errors.swimPlace * metre;
        reduction_.swims.push_back(swim);
        ReducedVisit visit;
        visit.visit = {1};
        visit.levelSigma = errors.level * metre;
        visit.rotationSigma = errors.rotationDegrees * degree;
        visit.rangeScaleSigma = errors.rangeScale;
        visit.rangeOffsetSigma = errors.rangeOffset * metre;
        reduction_.visits.push_back(visit);
    }

    /// A cast with a reading at each ground distance, true to the bed.
    MadeReduction& cast(double degrees, const std::vector<double>& ranges) {
        addCast(degrees);
        for (const double range : ranges) {
            reading(degrees, range, bed_(placeAt(degrees, range)));
        }
        return *this;
    }
    MadeReduction& addCast(double degrees) {
        ReducedCast cast;
        cast.cast = {static_cast<std::int64_t>(reduction_.casts.size()) + 1};
        cast.direction = PlaneBearing(degrees * degree);
        cast.aimSigma = errors_.aimDegrees * degree;
        reduction_.casts.push_back(cast);
        return *this;
    }
    /// A reading on the last cast, said to be where `degrees` and `range` have it.
    MadeReduction& reading(double degrees, double range, double level) {
        const double drop = 2.0 - level;
        Sounding sounding;
        sounding.source = Id<Reading>{static_cast<std::int64_t>(reduction_.soundings.size()) + 1};
        sounding.place = placeAt(degrees, range);
        sounding.level = {level * metre};
        sounding.levelSigma = errors_.depth * metre;
        sounding.line = LineGeometry{
            .cast = reduction_.casts.size() - 1,
            .line = {std::hypot(range, drop) * metre},
            .drop = drop * metre,
            .range = {range * metre},
            .lineSigma = errors_.line * metre};
        reduction_.soundings.push_back(sounding);
        return *this;
    }
    MadeReduction& fix(Point place, double level, double sigma = 0.2, double placeSigma = 1.0) {
        Sounding sounding;
        sounding.source = FixRow{.set = {1}, .row = reduction_.soundings.size()};
        sounding.place = place;
        sounding.level = {level * metre};
        sounding.levelSigma = sigma * metre;
        sounding.placeSigma = placeSigma * metre;
        reduction_.soundings.push_back(sounding);
        return *this;
    }

    [[nodiscard]] Reduction& reduction() { return reduction_; }
    [[nodiscard]] Point placeAt(double degrees, double range) const {
        const double a = degrees * std::numbers::pi / 180.0;
        const Point tip = reduction_.swims.front().tip;
        return {tip.east + range * std::sin(a), tip.north + range * std::cos(a)};
    }

private:
    Bed bed_;
    MadeErrors errors_;
    Reduction reduction_;
};

/// Ground distances from `near` to `far`, farthest first.
inline std::vector<double> every(double step, double near, double far) {
    std::vector<double> ranges;
    for (double range = far; range >= near; range -= step) {
        ranges.push_back(range);
    }
    return ranges;
}

/// An invented bed: a margin that falls away, a bar across at 70 m, a hole beyond.
inline double barAndHole(Point p) {
    const double out = std::hypot(p.east, p.north);
    const double bar = 1.2 * std::exp(-std::pow((p.north - 70.0) / 8.0, 2.0));
    const double hole =
        -0.8 * std::exp(-std::pow(std::hypot(p.east - 20.0, p.north - 95.0) / 12.0, 2.0));
    return -3.5 + 2.5 * std::exp(-out / 15.0) + bar + hole;
}

/// Seven aims 6° apart over that bed.
inline MadeReduction fan(MadeErrors errors = {}) {
    MadeReduction made(barAndHole, errors);
    for (int i = -3; i <= 3; ++i) {
        made.cast(6.0 * i, every(5.0, 20.0, 110.0));
    }
    return made;
}

} // namespace bedlore::testing
