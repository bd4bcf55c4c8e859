// SPDX-License-Identifier: MIT
#include "core/chart/map_drawing.hpp"

#include "core/base/contract.hpp"
#include "core/base/overloaded.hpp"
#include "core/chart/contour_clip.hpp"
#include "core/chart/map_notes.hpp"
#include "core/chart/map_words.hpp"
#include "core/chart/smooth_outline.hpp"
#include "core/reduction/line_out.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace bedlore {

namespace {

constexpr float notShown = std::numeric_limits<float>::quiet_NaN();

Raster<float> depthOf(const BedGrid& grid, WaterLevel level) {
    Raster<float> depth(grid.level.frame, notShown);
    std::transform(
        grid.level.values.begin(),
        grid.level.values.end(),
        depth.values.begin(),
        [surface = level.aboveDatum / metre](float bed) {
            return static_cast<float>(surface - static_cast<double>(bed));
        });
    return depth;
}

Raster<float> where(Raster<float> values, const Raster<std::uint8_t>& shown) {
    for (std::size_t i = 0; i < values.values.size(); ++i) {
        if (shown.values[i] == 0) {
            values.values[i] = notShown;
        }
    }
    return values;
}

// Two cells more all round, so that contours reach the outline and are cut there.
Raster<std::uint8_t> widened(const Raster<std::uint8_t>& cells) {
    Raster<std::uint8_t> result(cells.frame, 0);
    constexpr int reach = 2;
    for (int r = 0; r < cells.frame.rows; ++r) {
        for (int c = 0; c < cells.frame.columns; ++c) {
            if (cells.at(r, c) == 0) {
                continue;
            }
            for (int y = std::max(0, r - reach); y <= std::min(cells.frame.rows - 1, r + reach);
                 ++y) {
                for (int x = std::max(0, c - reach);
                     x <= std::min(cells.frame.columns - 1, c + reach);
                     ++x) {
                    result.at(y, x) = 1;
                }
            }
        }
    }
    return result;
}

void setRange(MapDrawing& map) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const float value : map.depth->values) {
        if (std::isfinite(value)) {
            low = std::min(low, static_cast<double>(value));
            high = std::max(high, static_cast<double>(value));
        }
    }
    if (low <= high) {
        map.shallowest = low;
        map.deepest = high;
    }
}

// Lines for what is under water and one where the water ends; of a bed that stands dry altogether,
// lines above the water.
LevelTable levelsOf(const MapDrawing& map) {
    if (!(map.shallowest < 0.0 && map.deepest > 0.0)) {
        return levelsFor(map.shallowest, map.deepest, map.depthUnit);
    }
    LevelTable table = levelsFor(0.0, map.deepest, map.depthUnit);
    table.levels.insert(
        table.levels.begin(), {.depth = 0.0, .label = "0", .bold = true, .labelled = true});
    return table;
}

// All that is known, and no more; with its error.
void showWhatIsKnown(MapDrawing& map, const BedGrid& grid, bool bands, const Progress& progress) {
    map.depth = std::make_shared<const Raster<float>>(where(depthOf(grid, map.level), grid.known));
    map.sigma = std::make_shared<const Raster<float>>(where(grid.sigma, grid.known));
    setRange(map);
    map.contours = contoursOf(*map.depth, levelsOf(map), {.bands = bands}, progress);
}

// How much of what is inside nobody read, in a word: a number would tell of the casts.
std::string unreadWords(const Raster<std::uint8_t>& inside, const Raster<std::uint8_t>& known) {
    double all = 0.0;
    double unread = 0.0;
    for (std::size_t i = 0; i < inside.values.size(); ++i) {
        if (inside.values[i] != 0) {
            all += 1.0;
            unread += known.values[i] == 0 ? 1.0 : 0.0;
        }
    }
    const std::string share = unread > 0.6 * all   ? "Most"
                              : unread > 0.4 * all ? "About half"
                                                   : "Some";
    return share + " of the depths inside the outline lie between casts and were not read.";
}

// Everything inside one smooth outline, whether or not anybody cast there: which is which would
// show where the casts went.
void showInsideOneOutline(MapDrawing& map, const BedGrid& grid, const Progress& progress) {
    const Raster<float> depth = depthOf(grid, map.level);
    const auto outline = smoothOutlineOf(grid.known);
    const Raster<std::uint8_t> inside =
        outline ? cellsInside(grid.frame(), *outline) : Raster<std::uint8_t>(grid.frame(), 0);
    map.depth = std::make_shared<const Raster<float>>(where(depth, inside));
    map.hatchUnknown = false;
    setRange(map);
    if (!outline || map.shallowest > map.deepest) {
        return;
    }
    map.contours =
        clipped(contoursOf(where(depth, widened(inside)), levelsOf(map), {}, progress), *outline);
    map.notes.push_back(unreadWords(inside, grid.known));
}

PlaneBearing directionTo(Point from, Point to) {
    return PlaneBearing(std::atan2(to.east - from.east, to.north - from.north) * radian);
}

// The middle of the fan of casts from the swim; out to the middle of what is shown without any.
PlaneBearing
outOverTheWater(const Reduction& reduction, std::size_t swim, const std::vector<Polygon>& shown) {
    std::optional<PlaneBearing> first;
    Angle least;
    Angle most;
    for (const ReducedCast& cast : reduction.casts) {
        if (reduction.visits[cast.visit].swim != swim) {
            continue;
        }
        first = first.value_or(cast.direction);
        const Angle turn = cast.direction - *first;
        least = std::min(least, turn);
        most = std::max(most, turn);
    }
    if (first) {
        return *first + 0.5 * (least + most);
    }
    if (shown.empty()) {
        return {};
    }
    double east = 0.0;
    double north = 0.0;
    for (const Point p : shown.front().outer) {
        east += p.east;
        north += p.north;
    }
    const auto n = static_cast<double>(shown.front().outer.size());
    return directionTo(reduction.swims[swim].tip, {east / n, north / n});
}

/// Nearly `direction`, but not so nearly that it points back at the swim: a whole number of steps
/// from north, so that no sheet is turned by anything that is his own.
PlaneBearing coarsely(PlaneBearing direction, PlaneBearing north) {
    constexpr double step = 15.0;
    return north + std::round((direction - north) / degree / step) * step * degree;
}

void turnTheMap(MapDrawing& map, const Reduction& reduction, const MapOptions& options) {
    const auto isGuessed = [](const ReducedCast& cast) { return cast.directionGuessed; };
    const auto& casts = reduction.casts;
    if (reduction.frame.hasOrigin()) {
        map.trueNorth = reduction.frame.toPlane(Bearing{}, map.extent.centre());
    } else if (!std::all_of(casts.begin(), casts.end(), isGuessed)) {
        map.trueNorth = PlaneBearing{};
    }
    if (!options.swim && map.trueNorth) {
        map.up = *map.trueNorth;
    }
    for (std::size_t i = 0; options.swim && i < reduction.swims.size(); ++i) {
        if (reduction.swims[i].swim == *options.swim) {
            const PlaneBearing out = outOverTheWater(reduction, i, map.contours.shown);
            map.up = map.tier == SharingTier::All
                         ? out
                         : coarsely(out, map.trueNorth.value_or(PlaneBearing{}));
            map.asSeenFromBank = true;
        }
    }
    map.anglesGuessed = std::any_of(casts.begin(), casts.end(), isGuessed);
}

// Adds the outline of what is shown: all of it, or what lies just round the places that are there.
void addShownNear(const std::vector<Polygon>& shown, bool all, std::vector<Point>& places) {
    constexpr double near = 28.0; // [m], beyond how far a reading makes the bed known
    const std::vector<Point> first = places;
    for (const Polygon& area : shown) {
        std::copy_if(
            area.outer.begin(), area.outer.end(), std::back_inserter(places), [&](Point p) {
                return all || std::any_of(first.begin(), first.end(), [&](Point q) {
                           const double east = p.east - q.east;
                           const double north = p.north - q.north;
                           return east * east + north * north < near * near;
                       });
            });
    }
}

// The places that must be in view: those of the chosen swim, or all.
std::vector<Point> placesToShow(const MapDrawing& map, const MapOptions& options) {
    const auto counts = [&](std::size_t swim) {
        return !options.swim || map.swims[swim].swim == *options.swim;
    };
    std::vector<Point> places;
    for (std::size_t i = 0; i < map.swims.size(); ++i) {
        if (counts(i)) {
            places.push_back(map.swims[i].tip);
        }
    }
    for (const DrawnCast& cast : map.casts) {
        if (counts(cast.swim) && cast.end) {
            places.push_back(*cast.end);
        }
    }
    for (const DrawnReading& reading : map.readings) {
        if (counts(map.casts[reading.cast].swim) && reading.placed.place) {
            places.push_back(*reading.placed.place);
        }
    }
    addShownNear(map.contours.shown, !options.swim || places.size() < 2, places);
    return places;
}

void setExtent(MapDrawing& map, const MapOptions& options) {
    std::vector<Point> places = placesToShow(map, options);
    if (places.empty()) {
        places = {{-5.0, -5.0}, {5.0, 5.0}};
    }
    Extent e{places[0].east, places[0].north, places[0].east, places[0].north};
    for (const Point p : places) {
        e.west = std::min(e.west, p.east);
        e.east = std::max(e.east, p.east);
        e.south = std::min(e.south, p.north);
        e.north = std::max(e.north, p.north);
    }
    constexpr double least = 10.0; // [m]
    const double padEast = std::max(0.0, 0.5 * (least - e.width()));
    const double padNorth = std::max(0.0, 0.5 * (least - e.height()));
    map.extent = {e.west - padEast, e.south - padNorth, e.east + padEast, e.north + padNorth};
    map.framed = convexHull(places);
    if (map.framed.size() < 3) {
        const Extent& x = map.extent;
        map.framed = {{x.west, x.south}, {x.east, x.south}, {x.east, x.north}, {x.west, x.north}};
    }
}

std::string whyEmpty(const MapDrawing& map, const Book& book, const Reduction& reduction) {
    if (!map.contours.shown.empty()) {
        return {};
    }
    const auto hasDepth = [&](const PlacedReading& placed) {
        const Reading* reading = book.find(placed.reading);
        return reading != nullptr && reading->depth;
    };
    const auto& readings = reduction.readings;
    if (reduction.soundings.empty() && std::any_of(readings.begin(), readings.end(), hasDepth)) {
        return "No depth that was noted can be used yet; its line on the page says why.";
    }
    if (reduction.soundings.empty()) {
        return "No depth has been noted yet, so there is no bed to draw.";
    }
    return "There are too few depths to say anything about the bed yet.";
}

bool hasSign(const DrawnReading& reading) {
    return !reading.label.empty() || reading.drop != DropSymbol::None || reading.outcome ||
           reading.placed.placeTo;
}

} // namespace

bool isPullAlone(const DrawnReading& reading) {
    return reading.pull && !hasSign(reading);
}

bool isBottomAlone(const DrawnReading& reading) {
    return !hasSign(reading) && !reading.pull && (reading.substrate || reading.cover);
}

std::optional<std::string> bottomWord(const DrawnReading& reading) {
    if (reading.substrate) {
        return std::string(word(*reading.substrate));
    }
    if (reading.cover) {
        return std::string(word(*reading.cover));
    }
    return std::nullopt;
}

namespace {

/// Those of the latest visit to the chosen swim, or to the only one.
std::optional<CountedWraps>
wrapsOf(const Book& book, const Reduction& reduction, std::optional<Id<Swim>> swim) {
    const ReducedVisit* latest = nullptr;
    for (const ReducedVisit& visit : reduction.visits) {
        const bool isHere =
            swim ? reduction.swims[visit.swim].swim == *swim : reduction.swims.size() == 1;
        if (isHere && (latest == nullptr || visit.date >= latest->date)) {
            latest = &visit;
        }
    }
    return latest == nullptr
               ? std::nullopt
               : std::optional(CountedWraps{
                     .wrap = wrapOf(book.get(latest->visit)), .tipHeight = latest->tipHeight});
}

} // namespace

MapDrawing drawMap(
    const Book& book,
    const Reduction& reduction,
    const BedGrid& grid,
    const MapOptions& options,
    const Progress& progress) {
    BEDLORE_EXPECTS(grid.known.frame == grid.level.frame && grid.sigma.frame == grid.level.frame);
    MapDrawing map;
    map.tier = options.tier;
    map.level = options.level;
    map.depthUnit = options.depthUnit == Unit::Foot ? Unit::Foot : Unit::Metre;
    map.distanceUnit = options.distanceUnit;
    if (options.tier == SharingTier::All) {
        showWhatIsKnown(map, grid, options.depthBands, progress);
        addNotes(map, book, reduction, options);
        if (options.ringsInWraps) {
            map.wraps = wrapsOf(book, reduction, options.swim);
        }
    } else {
        showInsideOneOutline(map, grid, progress);
        if (options.tier == SharingTier::Bottom) {
            map.notes.emplace_back("There is no map of the bottom to share yet: depths only.");
        }
    }
    setExtent(map, options);
    turnTheMap(map, reduction, options);
    MapTitle words = titleFor(book, reduction, options);
    map.title = std::move(words.title);
    map.subtitle = std::move(words.subtitle);
    map.levelWords = levelWordsFor(book, reduction, options);
    map.emptyWords = whyEmpty(map, book, reduction);
    map.legend = legendFor(map);
    map.cautions = mapCautions();
    return map;
}

} // namespace bedlore
