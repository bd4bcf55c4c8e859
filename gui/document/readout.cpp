// SPDX-License-Identifier: MIT
#include "gui/document/readout.hpp"

#include "core/book/kinds.hpp"
#include "core/reduction/line_out.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace bedlore {

namespace {

// A finger at arm's length covers about 2°, a fist about 10° [M].
constexpr double finger = 2.0;
constexpr double fist = 10.0;
constexpr double farAside = 45.0;

// What was felt this near a place is said of it; farther away it is said how far.
constexpr Length here = 1.5_m;
constexpr Length near = 6.0_m;

Length distanceBetween(Point a, Point b) {
    return std::hypot(a.east - b.east, a.north - b.north) * metre;
}

/// Distance from a place to where a reading was taken, stretches along their length.
std::optional<Length> distanceTo(const PlacedReading& reading, Point place) {
    if (!reading.place) {
        return std::nullopt;
    }
    const Point from = *reading.place;
    const Point to = reading.placeTo.value_or(from);
    const double dx = to.east - from.east;
    const double dy = to.north - from.north;
    const double square = dx * dx + dy * dy;
    const double along =
        square > 0.0 ? ((place.east - from.east) * dx + (place.north - from.north) * dy) / square
                     : 0.0;
    const double share = std::clamp(along, 0.0, 1.0);
    return distanceBetween(place, {from.east + share * dx, from.north + share * dy});
}

std::string bottomOf(const Reading& reading) {
    std::string words;
    const auto add = [&words](std::string_view more, const char* between) {
        words += (words.empty() ? "" : between) + std::string(more);
    };
    if (reading.substrate) {
        add(word(*reading.substrate), "");
    }
    if (reading.otherSubstrate) {
        add(word(*reading.otherSubstrate), " and ");
    }
    if (reading.cover && *reading.cover != Cover::Clear) {
        add(word(*reading.cover), " under ");
    }
    if (!words.empty() && reading.sureness == 1) {
        words += "?";
    }
    return words;
}

std::string bottomNear(const BedMap& map, Point place, const DisplayUnits& units) {
    std::string words;
    Length least = near;
    for (const PlacedReading& placed : map.reduction.readings) {
        const std::optional<Length> apart = distanceTo(placed, place);
        const Reading* record = map.book->find(placed.reading);
        if (!apart || *apart > least || record == nullptr) {
            continue;
        }
        if (std::string bottom = bottomOf(*record); !bottom.empty()) {
            least = *apart;
            words = std::move(bottom);
        }
    }
    if (!words.empty() && least > here) {
        words += " " + printLength(least, sheetUnit(units), 1.0) + " away";
    }
    return words;
}

/// "2 fingers", "1½ fists".
std::string byHand(double degrees) {
    const bool small = degrees < 4.5 * finger;
    const double number = small ? std::max(1.0, std::round(degrees / finger))
                                : std::round(degrees / fist * 2.0) / 2.0;
    return printEntered({.number = number, .unit = small ? Unit::Finger : Unit::Fist});
}

/// What the wraps are counted in.
std::string wrapWords(Length wrap, bool isSaid) {
    const std::string size = "a wrap is " + printLength(wrap, Unit::Foot);
    return isSaid ? size : size + ", as the page does not say";
}

/// Whether the page of the latest visit says what a wrap is.
bool latestSaysWrap(const BedMap& map) {
    const ReducedVisit* latest = map.latestVisit();
    return latest != nullptr && map.book->get(latest->visit).sticks.has_value();
}

struct PlaceAsked {
    Point place;
    Length depth; ///< of the water there
};

void sayHowToReach(
    PlaceReadout& readout,
    const BedMap& map,
    const std::vector<AimLine>& aims,
    const PlaceAsked& asked,
    const DisplayUnits& units) {
    const ReducedSwim* standing = map.standing();
    if (standing == nullptr) {
        return;
    }
    const GroundDistance range{distanceBetween(standing->tip, asked.place)};
    // All of one visit: its sticks and its tip, as its page has them before his eyes.
    const Length tip = aims.empty() ? map.tipHeight() : aims.front().tipHeight;
    const Length wrap = wrapFor(map, aims);
    const LineOut line = lineFor(range, tip + asked.depth);
    readout.howFar = printDistance(line.length, units, wrap);
    if (units.distance == Unit::Wrap) {
        readout.measure =
            wrapWords(wrap, aims.empty() ? latestSaysWrap(map) : aims.front().wrapIsSaid);
    }
    if (const auto aim = nearestAim(aims, standing->tip, asked.place)) {
        const PlaneBearing direction = directionTo(standing->tip, asked.place);
        readout.direction = besideAim(aims[*aim], direction - aims[*aim].direction);
    }
}

} // namespace

std::string PlaceReadout::line() const {
    std::string words = depth;
    if (!within.empty()) {
        words += (known ? ", " : ": ") + within;
    }
    if (!bottom.empty()) {
        words += " · " + bottom;
    }
    if (!howFar.empty()) {
        words += (words.empty() ? "" : " · ") + howFar;
    }
    if (!direction.empty()) {
        words += ", " + direction;
    }
    return words;
}

std::string besideAim(const AimLine& aim, Angle clockwise) {
    const double degrees = clockwise / degree;
    const double size = std::abs(degrees);
    const std::string name = aim.mark.empty() ? "aim " + aim.label : "the " + aim.mark;
    if (size < finger / 2.0) {
        return "on " + name;
    }
    const std::string side = degrees > 0.0 ? "right" : "left";
    if (size > farAside) {
        return printFixed(size, 0) + "° " + side + " of " + name;
    }
    return name + " " + byHand(size) + " " + side;
}

PlaceReadout readPlace(
    const BedMap& map, const std::vector<AimLine>& aims, Point place, const DisplayUnits& units) {
    PlaceReadout readout;
    const BedEstimate bed = map.surface.at(place);
    readout.known = bed.known;
    Length depth;
    if (bed.known) {
        depth = depthAt({bed.level * metre}, map.level).belowSurface;
        readout.depth = depth < Length{}
                            ? "dry, " + printLength(-depth, units.depth) + " above the water"
                            : printLength(depth, units.depth);
        readout.within = withinAbout(bed.sigma * metre, units.depth);
    } else {
        readout.depth = "don't know";
        readout.within = "no reading near";
    }
    readout.bottom = bottomNear(map, place, units);
    sayHowToReach(readout, map, aims, {place, std::max(depth, Length{})}, units);
    return readout;
}

std::string feltWords(const Reading& reading) {
    std::string words;
    const auto add = [&words](std::string_view more) {
        words += (words.empty() || more.empty() ? "" : ", ") + std::string(more);
    };
    if (reading.depth) {
        add(printEntered(reading.depth->value));
    }
    add(bottomOf(reading));
    if (reading.drop) {
        add(word(*reading.drop));
    }
    if (reading.pull) {
        add(word(*reading.pull));
    }
    if (reading.outcome) {
        add(word(*reading.outcome));
    }
    return words;
}

} // namespace bedlore
