// SPDX-License-Identifier: MIT
#include "gui/document/aims.hpp"

#include "core/base/overloaded.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/range_over_bed.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

// Throws without an aim that differ by less than this are one direction on the side view.
constexpr Angle sameDirection = 0.5_deg;

std::string markOf(const Book& book, const Aim& aim) {
    return std::visit(
        Overloaded{
            [&](const AimAtMark& at) {
                const Mark* mark = book.find(at.mark);
                return mark != nullptr && !at.offset ? mark->name : std::string();
            },
            [](const auto&) { return std::string(); }},
        aim.basis);
}

/// The group that a cast belongs to, made where there is none yet.
AimLine& groupOf(std::vector<AimLine>& groups, const BedMap& map, const ReducedCast& cast) {
    const ReducedVisit& visit = map.reduction.visits[cast.visit];
    const Cast& throwOut = map.book->get(cast.cast);
    const Aim* aim = throwOut.aim ? map.book->find(*throwOut.aim) : nullptr;
    const std::string label = aim != nullptr ? aim->label : cast.name;
    for (AimLine& group : groups) {
        const double apart = std::abs((group.direction - cast.direction) / degree);
        const bool close = apart < sameDirection / degree;
        const bool sameLabel = aim != nullptr && group.label == label;
        if (group.visit == visit.visit && close && (sameLabel || aim == nullptr)) {
            return group;
        }
    }
    AimLine group;
    group.label = label;
    group.mark = aim != nullptr ? markOf(*map.book, *aim) : std::string();
    group.visit = visit.visit;
    group.tip = map.reduction.swims[visit.swim].tip;
    group.direction = cast.direction;
    group.guessed = cast.directionGuessed;
    const Visit& record = map.book->get(visit.visit);
    group.tipHeight = visit.tipHeight;
    group.wrap = wrapOf(record);
    group.wrapIsSaid = record.sticks.has_value();
    return groups.emplace_back(std::move(group));
}

/// From left to right: clockwise, from the widest gap between the directions.
void sortFromLeft(std::vector<AimLine>& aims) {
    std::sort(aims.begin(), aims.end(), [](const AimLine& a, const AimLine& b) {
        return a.direction < b.direction;
    });
    std::size_t first = 0;
    double widest = -1.0;
    for (std::size_t i = 0; i < aims.size(); ++i) {
        const AimLine& before = aims[(i + aims.size() - 1) % aims.size()];
        const double step = aims[i].direction.degrees() - before.direction.degrees();
        const double gap = step - 360.0 * std::floor(step / 360.0);
        if (gap > widest) {
            widest = gap;
            first = i;
        }
    }
    std::rotate(aims.begin(), aims.begin() + static_cast<std::ptrdiff_t>(first), aims.end());
}

void measureReach(std::vector<AimLine>& aims, const Reduction& reduction) {
    for (AimLine& aim : aims) {
        for (const PlacedReading& reading : reduction.readings) {
            const bool onAim =
                std::find(aim.casts.begin(), aim.casts.end(), reading.cast) != aim.casts.end();
            if (onAim && reading.range) {
                aim.reach = std::max(aim.reach, reading.range->length);
            }
        }
    }
}

} // namespace

std::vector<AimLine> aimLines(const BedMap& map, std::optional<Id<Visit>> visit) {
    const ReducedSwim* standing = map.standing();
    if (standing == nullptr) {
        return {};
    }
    std::vector<AimLine> all;
    std::optional<Id<Visit>> latest;
    bool chosenHasAny = false;
    for (std::size_t i = 0; i < map.reduction.casts.size(); ++i) {
        const ReducedCast& cast = map.reduction.casts[i];
        const ReducedVisit& its = map.reduction.visits[cast.visit];
        if (map.reduction.swims[its.swim].swim != standing->swim) {
            continue;
        }
        groupOf(all, map, cast).casts.push_back(i);
        latest = its.visit; // casts stand by date
        chosenHasAny = chosenHasAny || its.visit == visit;
    }
    const auto wanted = chosenHasAny ? visit : latest;
    std::erase_if(all, [&](const AimLine& aim) { return aim.visit != wanted; });
    sortFromLeft(all);
    measureReach(all, map.reduction);
    return all;
}

Point placeOn(Point tip, PlaneBearing direction, Length range) {
    const double angle = direction.clockwise().si();
    return {tip.east + range.si() * std::sin(angle), tip.north + range.si() * std::cos(angle)};
}

Length rangeFor(const BedMap& map, const AimLine& aim, Length line) {
    return rangeOverBed(line, [&](Length range) {
        const auto level = map.levelAt(placeOn(aim.tip, aim.direction, range));
        return aim.tipHeight + (level ? depthAt(*level, map.level).belowSurface : Length{});
    });
}

Length wrapFor(const BedMap& map, const std::vector<AimLine>& aims) {
    return aims.empty() ? map.wrap() : aims.front().wrap;
}

PlaneBearing directionTo(Point from, Point to) {
    return PlaneBearing(Angle::fromSi(std::atan2(to.east - from.east, to.north - from.north)));
}

std::optional<std::size_t> nearestAim(const std::vector<AimLine>& aims, Point tip, Point place) {
    const PlaneBearing direction = directionTo(tip, place);
    std::optional<std::size_t> nearest;
    double least = 0.0;
    for (std::size_t i = 0; i < aims.size(); ++i) {
        const double apart = std::abs((direction - aims[i].direction).si());
        if (!nearest || apart < least) {
            nearest = i;
            least = apart;
        }
    }
    return nearest;
}

} // namespace bedlore
