// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/surface.hpp"
#include "core/book/book.hpp"
#include "core/chart/contours.hpp"
#include "core/chart/sharing.hpp"
#include "core/geometry/polygon.hpp"
#include "core/geometry/raster.hpp"
#include "core/reduction/sounding.hpp"
#include "core/units/bearing.hpp"
#include "core/units/depth.hpp"
#include "core/units/length.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// Everything that a map shows, as plain data. Whatever may not be shared is left out here, so that
// it can reach neither a painter nor a file.

namespace bedlore {

/// How the lead landed, as it is drawn.
enum class DropSymbol : std::uint8_t { None, Hard, Soft };

struct DrawnSwim {
    Id<Swim> swim;
    std::string name;
    Point tip;
    bool chosen = false;
};

/// A cast as a hairline from the rod tip to its farthest reading.
struct DrawnCast {
    Id<Cast> cast;
    std::size_t swim = 0; ///< into `MapDrawing::swims`
    Date date{};
    std::string name;
    std::string aim; ///< its letter on the page; empty where it was thrown along none
    Point tip;
    std::optional<Point> end; ///< empty where none of its readings has a place
    /// From true north; from the plane's north where that is all that is known.
    Bearing bearing{};
    bool directionGuessed = false;
};

/// One reading, with or without a place. `label` is its depth at the map's level, as noted and not
/// as smoothed, in the map's unit without the unit's name; empty without a depth.
struct DrawnReading {
    PlacedReading placed;
    std::size_t cast = 0; ///< into `MapDrawing::casts`
    std::string label;
    DropSymbol drop = DropSymbol::None;
    std::optional<Pull> pull; ///< how the lead came over the bed there
    bool doubtful = false;
    bool outcome = false; ///< ended without a depth: drawn as a cross
    std::optional<Substrate> substrate;
    std::optional<Cover> cover;
};

/// Whether there is neither depth, drop nor outcome to draw at its place, and no stretch: but a
/// pull, or only the bottom.
[[nodiscard]] bool isPullAlone(const DrawnReading& reading);
[[nodiscard]] bool isBottomAlone(const DrawnReading& reading);

/// What was felt there, the ground before what covers it; none where nothing was said.
[[nodiscard]] std::optional<std::string> bottomWord(const DrawnReading& reading);

/// A place to come back to.
struct DrawnSpot {
    Id<Spot> spot;
    std::string name;
    Point place;
};

/// Something on the far bank, in the direction in which he sees it from the chosen swim, or at its
/// place where that is known.
struct DrawnMark {
    Id<Mark> mark;
    std::string name;
    std::optional<PlaneBearing> direction;
    std::optional<Point> place;
    MarkTime time = MarkTime::Day;
};

/// What a row of the legend explains.
enum class LegendSymbol : std::uint8_t {
    DepthColours,
    Contour,
    Unknown,
    DryBed,
    CastLine,
    DepthReading,
    HardDrop,
    SoftDrop,
    Stretch,
    Pull,
    Bottom,
    Doubtful,
    Outcome,
    SwimDot,
    Spot,
    MarkAbove,
    Waterline,
};

struct LegendRow {
    LegendSymbol symbol;
    std::string words;
    std::optional<Pull> pull = std::nullopt; ///< which one, where `symbol` is `Pull`
    friend bool operator==(const LegendRow&, const LegendRow&) = default;
};

/// Line out counted in wraps, as on one visit.
struct CountedWraps {
    Length wrap;
    Length tipHeight; ///< above the water
    friend bool operator==(const CountedWraps&, const CountedWraps&) = default;
};

/// A map, ready to be drawn or written. At the tiers below `All` the vectors of swims, casts,
/// readings, spots and marks are empty, `sigma` is null, every text is neutral and `shown` is one
/// smooth outline.
struct MapDrawing {
    SharingTier tier = SharingTier::Depth;
    WaterLevel level;
    Unit depthUnit = Unit::Metre;      ///< foot or metre
    Unit distanceUnit = Unit::Metre;   ///< yard, foot or metre
    std::optional<CountedWraps> wraps; ///< what the rings count; `distanceUnit` where it is empty

    /// Depth [m] at the map's level; NaN where it is not given. Never null.
    std::shared_ptr<const Raster<float>> depth;
    /// Error [m], 1 sd, on the same frame; null below `All`.
    std::shared_ptr<const Raster<float>> sigma;
    double shallowest = 0.0; ///< [m] over the shown area; both zero where nothing is shown
    double deepest = 0.0;

    Contours contours;
    /// What is not shown is hatched as unknown; otherwise it is left blank.
    bool hatchUnknown = true;

    std::vector<DrawnSwim> swims;
    std::vector<DrawnCast> casts;
    std::vector<DrawnReading> readings;
    std::vector<DrawnSpot> spots;
    std::vector<DrawnMark> marks;
    std::vector<Ring> waterline;

    /// Around everything that is drawn; never empty (10 m square where there is nothing).
    Extent extent;
    /// The convex ring round what must be in view: of the chosen swim, or of everything.
    Ring framed;
    /// The plane's direction that stands upright on a sheet: from the chosen swim out over the
    /// water, else north.
    PlaneBearing up{};
    bool asSeenFromBank = false;
    /// Where true north is; empty in a plane that nobody has tied to north.
    std::optional<PlaneBearing> trueNorth;
    bool anglesGuessed = false;

    std::string title;
    std::vector<std::string> subtitle; ///< dates and names, at `All` only
    std::string levelWords;        ///< "at the level of 2 steps showing (0.35 m above the mark)"
    std::string emptyWords;        ///< why there is no depth to see; empty when there is
    std::vector<LegendRow> legend; ///< only what is there
    std::vector<std::string> cautions;
    std::vector<std::string> notes; ///< what the reader of this map should know, in sentences
};

struct MapOptions {
    WaterLevel level;
    SharingTier tier = SharingTier::Depth;
    PrivateThings privateThings = PrivateThings::LeaveOut;
    std::optional<Id<Swim>> swim; ///< the map is turned as seen from it
    Unit depthUnit = Unit::Metre;
    Unit distanceUnit = Unit::Metre;
    bool ringsInWraps = false; ///< round the chosen swim, in the wraps of its latest visit
    bool depthBands = true;    ///< at tier `All`: the areas between contours, which only files hold
};

/// The map of what `book` says about one water. `reduction` and `grid` must belong together; an
/// empty grid gives a map that says why it is empty. What is given when it was stopped is not
/// whole.
[[nodiscard]] MapDrawing drawMap(
    const Book& book,
    const Reduction& reduction,
    const BedGrid& grid,
    const MapOptions& options,
    const Progress& progress = {});

} // namespace bedlore
