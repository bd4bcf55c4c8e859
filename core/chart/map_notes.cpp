// SPDX-License-Identifier: MIT
#include "core/chart/map_notes.hpp"

#include "core/base/contract.hpp"
#include "core/base/overloaded.hpp"
#include "core/reduction/directions.hpp"
#include "core/reduction/line_out.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

std::string depthLabel(BedLevel bed, WaterLevel level, Unit unit) {
    const Length depth = depthAt(bed, level).belowSurface;
    if (unit == Unit::Foot) {
        return printNumber(std::round(4.0 * (depth / foot)) / 4.0 + 0.0);
    }
    return printFixed(std::round(10.0 * (depth / metre)) / 10.0 + 0.0, 1);
}

std::optional<Point> placeIn(const Place& place, const LocalFrame& frame) {
    return std::visit(
        Overloaded{
            [](std::monostate) -> std::optional<Point> { return std::nullopt; },
            [](Point p) -> std::optional<Point> { return p; },
            [&](GeographicPoint p) -> std::optional<Point> {
                return frame.hasOrigin() ? std::optional(frame.toPlane(p)) : std::nullopt;
            }},
        place);
}

double distance(Point a, Point b) {
    return std::hypot(b.east - a.east, b.north - a.north);
}

void addSwims(MapDrawing& map, const Reduction& reduction, const MapOptions& options) {
    for (const ReducedSwim& swim : reduction.swims) {
        map.swims.push_back(
            {.swim = swim.swim,
             .name = swim.name,
             .tip = swim.tip,
             .chosen = options.swim == swim.swim});
    }
}

std::string aimLetter(const Book& book, Id<Cast> cast) {
    const Cast* record = book.find(cast);
    const Aim* aim = record != nullptr && record->aim ? book.find(*record->aim) : nullptr;
    return aim != nullptr ? aim->label : std::string();
}

void addCasts(MapDrawing& map, const Book& book, const Reduction& reduction) {
    for (const ReducedCast& cast : reduction.casts) {
        const ReducedVisit& visit = reduction.visits[cast.visit];
        const Point tip = reduction.swims[visit.swim].tip;
        map.casts.push_back(
            {.cast = cast.cast,
             .swim = visit.swim,
             .date = visit.date,
             .name = cast.name,
             .aim = aimLetter(book, cast.cast),
             .tip = tip,
             .end = std::nullopt,
             .bearing = reduction.frame.toTrue(cast.direction, tip),
             .directionGuessed = cast.directionGuessed});
    }
}

void addReadings(MapDrawing& map, const Book& book, const Reduction& reduction) {
    for (const PlacedReading& placed : reduction.readings) {
        DrawnReading drawn{
            .placed = placed,
            .cast = placed.cast,
            .label = placed.level ? depthLabel(*placed.level, map.level, map.depthUnit) : "",
            .pull = std::nullopt,
            .substrate = std::nullopt,
            .cover = std::nullopt};
        if (const Reading* reading = book.find(placed.reading)) {
            drawn.drop = symbolOf(reading->drop);
            drawn.pull = reading->pull;
            drawn.doubtful = reading->sureness <= 1;
            drawn.outcome = reading->outcome.has_value();
            drawn.substrate = reading->substrate;
            drawn.cover = reading->cover;
        }
        map.readings.push_back(std::move(drawn));
        if (placed.place) {
            DrawnCast& cast = map.casts[placed.cast];
            if (!cast.end || distance(cast.tip, *placed.place) > distance(cast.tip, *cast.end)) {
                cast.end = placed.place;
            }
        }
    }
}

bool mayLeave(bool isPrivate, const MapOptions& options) {
    return !isPrivate || options.privateThings == PrivateThings::Include;
}

PlaneBearing directionTo(Point from, Point to) {
    return PlaneBearing(std::atan2(to.east - from.east, to.north - from.north) * radian);
}

Date latestDate(const Reduction& reduction) {
    Date latest{std::chrono::year{2025}, std::chrono::January, std::chrono::day{1}};
    for (std::size_t i = 0; i < reduction.visits.size(); ++i) {
        latest = i == 0 ? reduction.visits[i].date : std::max(latest, reduction.visits[i].date);
    }
    return latest;
}

// In what direction a mark stands from `swim`: by its place, else by a bearing taken there.
std::optional<PlaneBearing> directionOf(
    const Mark& mark,
    const ReducedSwim& swim,
    const std::optional<Point>& place,
    const Reduction& reduction) {
    if (place) {
        return directionTo(swim.tip, *place);
    }
    if (mark.bearing && mark.bearingFrom == swim.swim) {
        const auto bearing =
            planeBearing(*mark.bearing, reduction.frame, swim.tip, latestDate(reduction));
        return bearing ? std::optional(*bearing) : std::nullopt;
    }
    return std::nullopt;
}

void addMarks(
    MapDrawing& map, const Book& book, const Reduction& reduction, const MapOptions& options) {
    const ReducedSwim* from = reduction.swims.size() == 1 ? &reduction.swims.front() : nullptr;
    for (const ReducedSwim& swim : reduction.swims) {
        from = options.swim == swim.swim ? &swim : from;
    }
    for (const Mark& mark : book.all<Mark>()) {
        if (mark.water != reduction.water || mark.goneSince || !mayLeave(mark.isPrivate, options)) {
            continue;
        }
        DrawnMark drawn{
            .mark = mark.id,
            .name = mark.name,
            .direction = std::nullopt,
            .place = placeIn(mark.place, reduction.frame),
            .time = mark.time};
        if (from != nullptr) {
            drawn.direction = directionOf(mark, *from, drawn.place, reduction);
        }
        if (drawn.place || drawn.direction) {
            map.marks.push_back(std::move(drawn));
        }
    }
}

// The bed's depth at a place, from the map; none where it is not shown.
std::optional<double> depthAtPlace(const Raster<float>& depth, Point p) {
    const double column = std::floor((p.east - depth.frame.west) / depth.frame.cell);
    const double row = std::floor((depth.frame.north - p.north) / depth.frame.cell);
    if (!(column >= 0.0 && column < depth.frame.columns && row >= 0.0 && row < depth.frame.rows)) {
        return std::nullopt;
    }
    const float value = depth.at(static_cast<int>(row), static_cast<int>(column));
    return std::isfinite(value) ? std::optional(static_cast<double>(value)) : std::nullopt;
}

Point along(Point tip, PlaneBearing direction, double range) {
    const double a = direction.clockwise() / radian;
    return {tip.east + range * std::sin(a), tip.north + range * std::cos(a)};
}

std::optional<Spool> spoolOf(const Book& book, const Visit& visit) {
    const Reel* reel = visit.reel ? book.find(*visit.reel) : nullptr;
    const auto spool = reel != nullptr ? Spool::of(*reel) : Result<Spool>(fail(inputError({})));
    return spool ? std::optional(*spool) : std::nullopt;
}

// Where a line of this length lies on an aim: each pass takes the depth where the last one ended.
std::optional<Point>
placeOnAim(const OnAim& on, const MapDrawing& map, const Book& book, const Reduction& reduction) {
    const Aim* aim = book.find(on.aim);
    const Visit* visit = aim != nullptr ? book.find(aim->visit) : nullptr;
    if (visit == nullptr) {
        return std::nullopt;
    }
    const auto swim = std::find_if(
        reduction.swims.begin(), reduction.swims.end(), [&](const ReducedSwim& candidate) {
            return candidate.swim == visit->swim;
        });
    if (swim == reduction.swims.end()) {
        return std::nullopt;
    }
    const auto directions = castDirections(book, *visit, reduction.frame, swim->tip);
    const auto direction = directions.aims.find(on.aim);
    const auto line = lineOut(on.lineOut, {.wrap = wrapOf(*visit), .spool = spoolOf(book, *visit)});
    if (direction == directions.aims.end() || !line) {
        return std::nullopt;
    }
    double drop = 0.0;
    Point place = swim->tip;
    for (int pass = 0; pass < 4; ++pass) {
        const auto range = groundDistance({line->line}, drop * metre);
        if (!range) {
            return std::nullopt;
        }
        place = along(swim->tip, direction->second.bearing, range->length / metre);
        drop = depthAtPlace(*map.depth, place).value_or(drop);
    }
    return place;
}

void addSpots(
    MapDrawing& map, const Book& book, const Reduction& reduction, const MapOptions& options) {
    for (const Spot& spot : book.all<Spot>()) {
        if (spot.water != reduction.water || !mayLeave(spot.isPrivate, options)) {
            continue;
        }
        const std::optional<Point> place = std::visit(
            Overloaded{
                [&](const Place& p) { return placeIn(p, reduction.frame); },
                [&](const OnAim& on) { return placeOnAim(on, map, book, reduction); }},
            spot.place);
        if (place) {
            map.spots.push_back({.spot = spot.id, .name = spot.name, .place = *place});
        }
    }
}

void addWaterline(MapDrawing& map, const Book& book, const Reduction& reduction) {
    const Water* water = book.find(reduction.water);
    for (std::size_t i = 0; water != nullptr && i < water->shore.size(); ++i) {
        Ring ring;
        for (const Place& vertex : water->shore[i].vertices) {
            if (const auto p = placeIn(vertex, reduction.frame)) {
                ring.push_back(*p);
            }
        }
        if (ring.size() >= 3) {
            map.waterline.push_back(std::move(ring));
        }
    }
}

} // namespace

// Thud counts as hard: "dull, firm" in the trade's words.
DropSymbol symbolOf(const std::optional<Drop>& drop) {
    if (!drop) {
        return DropSymbol::None;
    }
    switch (*drop) {
    case Drop::Crack:
    case Drop::Donk:
    case Drop::Thud:
    case Drop::Hard:
        return DropSymbol::Hard;
    case Drop::Soft:
    case Drop::Nothing:
        return DropSymbol::Soft;
    }
    return DropSymbol::None;
}

void addNotes(
    MapDrawing& map, const Book& book, const Reduction& reduction, const MapOptions& options) {
    BEDLORE_EXPECTS(map.tier == SharingTier::All);
    addSwims(map, reduction, options);
    addCasts(map, book, reduction);
    addReadings(map, book, reduction);
    addSpots(map, book, reduction, options);
    addMarks(map, book, reduction, options);
    addWaterline(map, book, reduction);
}

} // namespace bedlore
