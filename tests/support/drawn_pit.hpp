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
#include <optional>
#include <string>
#include <utility>

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

/// Makes the records of the pit, with ids in the order in which they are made.
class PitMaker {
public:
    Book make() {
        const Id<Water> water = putWater();
        const Id<Swim> alder{id()};
        const Id<Swim> board{id()};
        constexpr Point atAlder{0.0, 0.0};
        constexpr Point atBoard{70.0, 12.0};
        putSwim(alder, water, "Alder Stand", atAlder);
        putSwim(board, water, "Long Board", atBoard);
        putMarks(alder, water);
        putCasts({putVisit(alder, 4, 2.0), atAlder, -32.0, 34.0, 9.0, -0.36});
        putCasts({putVisit(board, 5, 3.0), atBoard, -46.0, -8.0, 9.5, -0.54});
        putSpots(water);
        return std::move(book_);
    }

private:
    /// Casts at bearings [degrees] from one to another, each so far from the last, at a level [m]
    /// of the water.
    struct Fan {
        Id<Visit> visit;
        Point tip;
        double from = 0.0;
        double to = 0.0;
        double spread = 0.0;
        double surface = 0.0;
    };

    std::int64_t id() { return next_++; }

    Id<Water> putWater() {
        const Id<Water> water{id()};
        book_.all<Water>().put(
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
        return water;
    }

    void putSwim(Id<Swim> sid, Id<Water> water, const char* name, Point tip) {
        Swim swim;
        swim.id = sid;
        swim.water = water;
        swim.name = name;
        swim.place = tip;
        swim.tipHeight = Entered{2.0, Unit::Metre, "2 m"};
        book_.all<Swim>().put(swim);
    }

    void putMarks(Id<Swim> from, Id<Water> water) {
        Mark pine;
        pine.id = {id()};
        pine.water = water;
        pine.name = "dead pine";
        pine.bearingFrom = from;
        pine.bearing = BearingEntry{{352.0, Unit::Degree, "352"}, North::Grid};
        book_.all<Mark>().put(pine);
        Mark pole = pine;
        pole.id = {id()};
        pole.name = "pole";
        pole.bearing = BearingEntry{{24.0, Unit::Degree, "24"}, North::Grid};
        book_.all<Mark>().put(pole);
        Mark hidden = pine;
        hidden.id = {id()};
        hidden.name = "my own stump";
        hidden.isPrivate = true;
        book_.all<Mark>().put(hidden);
    }

    Id<Visit> putVisit(Id<Swim> swim, unsigned month, double steps) {
        using namespace std::chrono;
        Visit visit;
        visit.id = {id()};
        visit.swim = swim;
        visit.date = Date{year{2025}, std::chrono::month{month}, day{12}};
        visit.level = Entered{steps, Unit::Step, "steps"};
        visit.bearingSource = BearingSource::Mark;
        book_.all<Visit>().put(visit);
        return visit.id;
    }

    void putCasts(const Fan& fan) {
        const int casts = static_cast<int>((fan.to - fan.from) / fan.spread) + 1;
        for (int order = 1; order <= casts; ++order) {
            const double bearing = fan.from + fan.spread * (order - 1);
            Cast cast;
            cast.id = {id()};
            cast.visit = fan.visit;
            cast.order = order;
            cast.name = std::to_string(order);
            cast.bearing =
                BearingEntry{{bearing, Unit::Degree, std::to_string(bearing)}, North::Grid};
            book_.all<Cast>().put(cast);
            constexpr int readings = 10;
            for (int number = 1; number <= readings; ++number) {
                const double range = 104.0 - 9.0 * (number - 1);
                const double a = bearing * degree.si();
                const Point p{
                    fan.tip.east + range * std::sin(a), fan.tip.north + range * std::cos(a)};
                putReading(cast, number, range, fan.surface - pitLevel(p));
            }
        }
    }

    void putReading(const Cast& cast, int number, double range, double depth) {
        Reading reading;
        reading.id = {id()};
        reading.cast = cast.id;
        reading.order = number;
        const double line = std::hypot(range, 2.0 + depth);
        reading.from = {line, Unit::Metre, "line"};
        const int kind = (cast.order * 7 + number * 3) % 11;
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
        book_.all<Reading>().put(reading);
    }

    void putSpots(Id<Water> water) {
        Spot spot;
        spot.id = {id()};
        spot.water = water;
        spot.name = "Gravel Tooth";
        spot.place = Place{Point{4.0, 63.0}};
        book_.all<Spot>().put(spot);
        spot.id = {id()};
        spot.name = "nobody's business";
        spot.isPrivate = true;
        book_.all<Spot>().put(spot);
    }

    Book book_;
    std::int64_t next_ = 1;
};

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
    Book book = PitMaker().make();
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
