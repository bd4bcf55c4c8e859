// SPDX-License-Identifier: MIT
#include "core/bed/shared_errors.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

using Kind = SharedErrorKind;

constexpr std::size_t kinds = 7;
// A lead nearly under the tip has no direction; its place does not move by more than its line.
constexpr double leastRange = 0.1; // m

double rangeOf(double line, double drop) {
    return std::sqrt(std::max(line * line - drop * drop, leastRange * leastRange));
}

} // namespace

SharedErrors::SharedErrors(const Reduction& reduction, std::span<const BedDatum> data)
    : tables_(kinds) {
    for (const ReducedCast& cast : reduction.casts) {
        visitOfCast_.push_back(cast.visit);
    }
    for (const ReducedVisit& visit : reduction.visits) {
        swimOfVisit_.push_back(visit.swim);
    }
    std::vector<char> castUsed(reduction.casts.size(), 0);
    std::vector<char> visitUsed(reduction.visits.size(), 0);
    std::vector<char> swimUsed(reduction.swims.size(), 0);
    for (const BedDatum& datum : data) {
        if (datum.thrown) {
            const std::size_t visit = visitOfCast_.at(datum.thrown->cast);
            castUsed[datum.thrown->cast] = 1;
            visitUsed.at(visit) = 1;
            swimUsed.at(swimOfVisit_[visit]) = 1;
        }
    }
    for (std::size_t i = 0; i < castUsed.size(); ++i) {
        if (castUsed[i] != 0) {
            add(Kind::Aim, i, reduction.casts[i].aimSigma.si());
        }
    }
    for (std::size_t i = 0; i < visitUsed.size(); ++i) {
        if (visitUsed[i] != 0) {
            const ReducedVisit& visit = reduction.visits[i];
            add(Kind::Rotation, i, visit.rotationSigma.si());
            add(Kind::RangeScale, i, visit.rangeScaleSigma);
            add(Kind::RangeOffset, i, visit.rangeOffsetSigma.si());
            add(Kind::Level, i, visit.levelSigma.si());
        }
    }
    for (std::size_t i = 0; i < swimUsed.size(); ++i) {
        if (swimUsed[i] != 0) {
            add(Kind::SwimEast, i, reduction.swims[i].placeSigma.si());
            add(Kind::SwimNorth, i, reduction.swims[i].placeSigma.si());
        }
    }
}

SharedErrors::Table& SharedErrors::table(Kind kind) {
    return tables_[static_cast<std::size_t>(kind)];
}

const SharedErrors::Table& SharedErrors::table(Kind kind) const {
    return tables_[static_cast<std::size_t>(kind)];
}

void SharedErrors::add(Kind kind, std::size_t index, double sigma) {
    if (!(sigma > 0.0) || !std::isfinite(sigma)) {
        return;
    }
    Table& places = table(kind);
    if (places.size() <= index) {
        places.resize(index + 1, -1);
    }
    places[index] = size();
    errors_.push_back({.kind = kind, .index = index, .sigma = sigma});
}

double SharedErrors::valueOf(Kind kind, std::size_t index, const Eigen::VectorXd& zeta) const {
    const Table& places = table(kind);
    if (index >= places.size() || places[index] < 0) {
        return 0.0;
    }
    return zeta[places[index]] * errors_[static_cast<std::size_t>(places[index])].sigma;
}

SharedErrors::Bent
SharedErrors::bent(const ThrowGeometry& thrown, const Eigen::VectorXd& zeta) const {
    const std::size_t visit = visitOfCast_[thrown.cast];
    const std::size_t swim = swimOfVisit_[visit];
    Bent result;
    result.direction = thrown.direction + valueOf(Kind::Aim, thrown.cast, zeta) +
                       valueOf(Kind::Rotation, visit, zeta);
    result.line = thrown.line * (1.0 + valueOf(Kind::RangeScale, visit, zeta)) +
                  valueOf(Kind::RangeOffset, visit, zeta);
    result.range =
        thrown.range + rangeOf(result.line, thrown.drop) - rangeOf(thrown.line, thrown.drop);
    result.eastShift = valueOf(Kind::SwimEast, swim, zeta);
    result.northShift = valueOf(Kind::SwimNorth, swim, zeta);
    return result;
}

std::vector<Point>
SharedErrors::places(std::span<const BedDatum> data, const Eigen::VectorXd& zeta) const {
    std::vector<Point> result;
    result.reserve(data.size());
    for (const BedDatum& datum : data) {
        if (!datum.thrown) {
            result.push_back(datum.recorded);
            continue;
        }
        const ThrowGeometry& thrown = *datum.thrown;
        const Bent b = bent(thrown, zeta);
        result.push_back(
            {thrown.tip.east + b.eastShift + b.range * std::sin(b.direction),
             thrown.tip.north + b.northShift + b.range * std::cos(b.direction)});
    }
    return result;
}

std::vector<std::vector<SharedEffect>>
SharedErrors::effects(std::span<const BedDatum> data, const Eigen::VectorXd& zeta) const {
    std::vector<std::vector<SharedEffect>> result(data.size());
    for (std::size_t i = 0; i < data.size(); ++i) {
        if (!data[i].thrown) {
            continue;
        }
        const ThrowGeometry& thrown = *data[i].thrown;
        const std::size_t visit = visitOfCast_[thrown.cast];
        const std::size_t swim = swimOfVisit_[visit];
        const Bent b = bent(thrown, zeta);
        const double outEast = std::sin(b.direction);
        const double outNorth = std::cos(b.direction);
        const double stretch = b.line / rangeOf(b.line, thrown.drop); // dR/dL
        const auto put = [&](Kind kind, std::size_t index, double along, double across) {
            const Table& places = table(kind);
            if (index < places.size() && places[index] >= 0) {
                const double s = errors_[static_cast<std::size_t>(places[index])].sigma;
                // Clockwise from the outward direction is (north, −east) of it.
                result[i].push_back(
                    {.error = places[index],
                     .east = s * (along * outEast + across * outNorth),
                     .north = s * (along * outNorth - across * outEast)});
            }
        };
        put(Kind::Aim, thrown.cast, 0.0, b.range);
        put(Kind::Rotation, visit, 0.0, b.range);
        put(Kind::RangeScale, visit, stretch * thrown.line, 0.0);
        put(Kind::RangeOffset, visit, stretch, 0.0);
        put(Kind::SwimEast, swim, outEast, outNorth);
        put(Kind::SwimNorth, swim, outNorth, -outEast);
        const Table& levels = table(Kind::Level);
        if (visit < levels.size() && levels[visit] >= 0) {
            result[i].push_back(
                {.error = levels[visit],
                 .level = errors_[static_cast<std::size_t>(levels[visit])].sigma});
        }
    }
    return result;
}

} // namespace bedlore
