// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/surface.hpp"
#include "core/book/book.hpp"
#include "core/chart/map_drawing.hpp"
#include "core/reduction/reduction.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>

// An invented pit whose bed is a formula, with two swims and their casts: something to draw.

namespace bedlore::testing {

/// Names that must not be found in what is shared at the lower tiers.
inline constexpr std::array<const char*, 7> secretsOfThePit{
    "Harl Pit", "Alder Stand", "Long Board", "dead pine", "Gravel Tooth", "steps showing", "2025"};

/// Bed level [m] at a place: a bank that falls away, a bar across it and a hole behind.
inline double pitLevel(Point p) {
    const double out = p.north;
    const double bank = -4.2 * (1.0 - std::exp(-std::max(out, 0.0) / 35.0));
    const double barLine = out - 62.0 - 0.15 * p.east;
    const double bar = 1.5 * std::exp(-barLine * barLine / 120.0);
    const double hole =
        -1.3 * std::exp(-(std::pow(p.east + 22.0, 2) + std::pow(out - 88.0, 2)) / 260.0);
    return bank + bar + hole;
}

inline Book pitBook() {
    using namespace std::chrono;
    Book book;
    std::int64_t next = 1;
    const auto id = [&] { return next++; };
    const Id<Water> water{id()};
    book.all<Water>().put(
        {.id = water,
         .name = "Harl Pit",
         .position = GeographicPoint{52.2, -1.2},
         .planeOrigin = GeographicPoint{52.2, -1.2},
         .levelReference =
             {.words = "steps showing",
              .stepHeight = Entered{18.0, Unit::Centimetre, "18 cm"},
              .counts = LevelCounts::DownWithWater},
         .shore = {},
         .rules = ""});
    const Id<Swim> alder{id()};
    const Id<Swim> board{id()};
    const auto swim = [&](Id<Swim> sid, const char* name, Point tip) {
        Swim s;
        s.id = sid;
        s.water = water;
        s.name = name;
        s.place = tip;
        s.tipHeight = Entered{2.0, Unit::Metre, "2 m"};
        book.all<Swim>().put(s);
    };
    swim(alder, "Alder Stand", {0.0, 0.0});
    swim(board, "Long Board", {70.0, 12.0});
    Mark pine;
    pine.id = {id()};
    pine.water = water;
    pine.name = "dead pine";
    pine.bearingFrom = alder;
    pine.bearing = BearingEntry{{352.0, Unit::Degree, "352"}, North::Grid};
    book.all<Mark>().put(pine);
    Mark pole = pine;
    pole.id = {id()};
    pole.name = "pole";
    pole.bearing = BearingEntry{{24.0, Unit::Degree, "24"}, North::Grid};
    book.all<Mark>().put(pole);
    Mark hidden = pine;
    hidden.id = {id()};
    hidden.name = "my own stump";
    hidden.isPrivate = true;
    book.all<Mark>().put(hidden);

    const auto visit = [&](Id<Swim> sid, int month, double steps) {
        Visit v;
        v.id = {id()};
        v.swim = sid;
        v.date = Date{year{2025}, std::chrono::month{static_cast<unsigned>(month)}, day{12}};
        v.level = Entered{steps, Unit::Step, "steps"};
        v.bearingSource = BearingSource::Mark;
        book.all<Visit>().put(v);
        return v.id;
    };
    const auto casts =
        [&](Id<Visit> vid, Point tip, double from, double to, double spread, double surface) {
            int order = 0;
            for (double bearing = from; bearing <= to; bearing += spread) {
                Cast cast;
                cast.id = {id()};
                cast.visit = vid;
                cast.order = ++order;
                cast.name = std::to_string(order);
                cast.bearing =
                    BearingEntry{{bearing, Unit::Degree, std::to_string(bearing)}, North::Grid};
                book.all<Cast>().put(cast);
                int number = 0;
                for (double range = 104.0; range > 14.0; range -= 9.0) {
                    const double a = bearing * degree.si();
                    const Point p{tip.east + range * std::sin(a), tip.north + range * std::cos(a)};
                    const double depth = surface - pitLevel(p);
                    Reading reading;
                    reading.id = {id()};
                    reading.cast = cast.id;
                    reading.order = ++number;
                    const double line = std::hypot(range, 2.0 + depth);
                    reading.from = {line, Unit::Metre, "line"};
                    const int kind = (order * 7 + number * 3) % 11;
                    if (kind == 4) {
                        reading.outcome = Outcome::FloatNeverShowed;
                    } else if (kind == 8) {
                        reading.to = Entered{line - 6.0, Unit::Metre, "to"};
                        reading.substrate = Substrate::Silt;
                    } else {
                        reading.depth.emplace();
                        reading.depth->value = {std::round(10.0 * depth) / 10.0, Unit::Metre, "d"};
                        reading.drop = kind < 3    ? std::optional(Drop::Donk)
                                       : kind == 5 ? std::optional(Drop::Soft)
                                                   : std::nullopt;
                        reading.sureness = kind == 6 ? 1 : 2;
                    }
                    book.all<Reading>().put(reading);
                }
            }
        };
    casts(visit(alder, 4, 2.0), {0.0, 0.0}, -32.0, 34.0, 9.0, -0.36);
    casts(visit(board, 5, 3.0), {70.0, 12.0}, -46.0, -8.0, 9.5, -0.54);
    Spot spot;
    spot.id = {id()};
    spot.water = water;
    spot.name = "Gravel Tooth";
    spot.place = Place{Point{4.0, 63.0}};
    book.all<Spot>().put(spot);
    spot.id = {id()};
    spot.name = "nobody's business";
    spot.isPrivate = true;
    book.all<Spot>().put(spot);
    return book;
}

/// The pit's bed as if it had been fitted: known within `reach` metres of a reading with a place.
inline BedGrid pitGrid(const Reduction& reduction, double cell = 1.0, double reach = 9.0) {
    const GridFrame frame{
        .west = -90.0,
        .north = 130.0,
        .cell = cell,
        .rows = static_cast<int>(150.0 / cell),
        .columns = static_cast<int>(200.0 / cell)};
    BedGrid grid{{frame, 0.0F}, {frame, 0.0F}, {frame, 0}};
    for (int r = 0; r < frame.rows; ++r) {
        for (int c = 0; c < frame.columns; ++c) {
            const Point p = frame.centre(r, c);
            double nearest = 1e9;
            for (const PlacedReading& reading : reduction.readings) {
                if (reading.place && reading.level) {
                    nearest = std::min(
                        nearest,
                        std::hypot(p.east - reading.place->east, p.north - reading.place->north));
                }
            }
            grid.level.at(r, c) = static_cast<float>(pitLevel(p));
            grid.sigma.at(r, c) = static_cast<float>(0.1 + 0.03 * nearest);
            grid.known.at(r, c) = nearest <= reach ? 1 : 0;
        }
    }
    return grid;
}

/// The whole of it at the level of the later visit.
struct DrawnPit {
    Book book = pitBook();
    Reduction reduction = reduce(book, {.water = Id<Water>{1}, .alone = std::nullopt}).value();
    BedGrid grid = pitGrid(reduction);

    [[nodiscard]] MapOptions options(SharingTier tier) const {
        return {
            .level = {-0.36 * metre},
            .tier = tier,
            .privateThings = PrivateThings::LeaveOut,
            .swim = Id<Swim>{2},
            .depthUnit = Unit::Foot,
            .distanceUnit = Unit::Yard};
    }
    [[nodiscard]] MapDrawing map(SharingTier tier) const {
        return drawMap(book, reduction, grid, options(tier));
    }
};

/// One for all tests of a program, that none of them changes.
inline const DrawnPit& pit() {
    static const DrawnPit made;
    return made;
}

} // namespace bedlore::testing
