// SPDX-License-Identifier: MIT
#include "core/chart/map_words.hpp"

#include "core/units/format.hpp"
#include "core/units/month_name.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

constexpr double noLevel = 0.005; // [m]: nobody reads a level finer

std::string againstMark(Length level, Unit unit) {
    if (std::abs(level / metre) < noLevel) {
        return "level with the level mark";
    }
    const double step = unit == Unit::Foot ? 0.1 : 0.01;
    const Length size = level < Length{} ? -level : level;
    const double number = std::round(size / (unit == Unit::Foot ? foot : metre) / step) * step;
    const std::string text =
        printFixed(number, unit == Unit::Foot ? 1 : 2) + (unit == Unit::Foot ? " ft " : " m ");
    return text + (level < Length{} ? "below" : "above") + " the level mark";
}

// The level as he would read it off the steps, where it is a count that he could have read.
std::optional<std::string> inSteps(WaterLevel level, const LevelReference& reference) {
    if (reference.words.empty() || !reference.stepHeight) {
        return std::nullopt;
    }
    const auto height = fixedLength(*reference.stepHeight);
    if (!height || !(*height > Length{})) {
        return std::nullopt;
    }
    const double way = reference.counts == LevelCounts::DownWithWater ? -1.0 : 1.0;
    const double steps = way * (level.aboveDatum / *height);
    const double quarters = std::round(4.0 * steps);
    if (quarters < 0.0 || std::abs(4.0 * steps - quarters) > 0.05) {
        return std::nullopt;
    }
    return printNumber(0.25 * quarters) + " " + reference.words;
}

bool anyLevelSaid(const Reduction& reduction) {
    return std::any_of(reduction.visits.begin(), reduction.visits.end(), [](const auto& visit) {
        return visit.levelSaid;
    });
}

std::string datesOf(const Reduction& reduction) {
    std::vector<Date> dates;
    for (const ReducedVisit& visit : reduction.visits) {
        dates.push_back(visit.date);
    }
    std::sort(dates.begin(), dates.end());
    dates.erase(std::unique(dates.begin(), dates.end()), dates.end());
    if (dates.empty()) {
        return {};
    }
    if (dates.size() == 1) {
        return "Visit of " + dateInWords(dates.front());
    }
    return std::to_string(dates.size()) + " visits, " + dateInWords(dates.front()) + " to " +
           dateInWords(dates.back());
}

template <class Matches>
bool hasReading(const MapDrawing& map, const Matches& matches) {
    return std::any_of(map.readings.begin(), map.readings.end(), [&](const DrawnReading& reading) {
        return reading.placed.place && matches(reading);
    });
}

void addReadingRows(const MapDrawing& map, std::vector<LegendRow>& rows) {
    const auto add =
        [&](LegendSymbol symbol, const char* words, bool (*matches)(const DrawnReading&)) {
            if (hasReading(map, matches)) {
                rows.push_back({symbol, words});
            }
        };
    add(LegendSymbol::DepthReading, "depth measured", [](const DrawnReading& r) {
        return !r.label.empty();
    });
    add(LegendSymbol::HardDrop, "hard drop", [](const DrawnReading& r) {
        return r.drop == DropSymbol::Hard;
    });
    add(LegendSymbol::SoftDrop, "soft drop", [](const DrawnReading& r) {
        return r.drop == DropSymbol::Soft;
    });
    add(LegendSymbol::Stretch, "stretch felt on the pull", [](const DrawnReading& r) {
        return r.placed.placeTo.has_value();
    });
    add(LegendSymbol::Bottom, "bottom felt", isBottomAlone);
    for (const Term<Pull>& term : pullTerms()) {
        if (hasReading(map, [&](const DrawnReading& r) { return r.pull == term.kind; })) {
            rows.push_back(
                {LegendSymbol::Pull, std::string(term.word) + " on the pull", term.kind});
        }
    }
    add(LegendSymbol::Doubtful, "doubtful", [](const DrawnReading& r) { return r.doubtful; });
    add(LegendSymbol::Outcome, "no depth: float, weed or lead", [](const DrawnReading& r) {
        return r.outcome;
    });
}

} // namespace

std::string dateInWords(Date date) {
    if (!date.ok()) {
        return {};
    }
    return std::to_string(static_cast<unsigned>(date.day())) + " " +
           std::string(monthName(date.month())) + " " +
           std::to_string(static_cast<int>(date.year()));
}

std::string levelWordsFor(const Book& book, const Reduction& reduction, const MapOptions& options) {
    const Length level = options.level.aboveDatum;
    if (!anyLevelSaid(reduction) && std::abs(level / metre) < noLevel) {
        return "at the level of the first visit";
    }
    const std::string plain = againstMark(level, options.depthUnit);
    const Water* water = book.find(reduction.water);
    if (options.tier == SharingTier::All && water != nullptr) {
        if (const auto steps = inSteps(options.level, water->levelReference)) {
            return "at the level of " + *steps + " (" + plain + ")";
        }
    }
    return std::abs(level / metre) < noLevel ? "at the level mark" : "at a level " + plain;
}

MapTitle titleFor(const Book& book, const Reduction& reduction, const MapOptions& options) {
    if (options.tier != SharingTier::All) {
        return {.title = "Depths of the bed", .subtitle = {}};
    }
    MapTitle words;
    const Water* water = book.find(reduction.water);
    const Swim* swim = options.swim ? book.find(*options.swim) : nullptr;
    if (swim != nullptr) {
        words.title = swim->name;
    }
    if (water != nullptr && !water->name.empty()) {
        if (words.title.empty()) {
            words.title = water->name;
        } else {
            words.subtitle.push_back(water->name);
        }
    }
    if (words.title.empty()) {
        words.title = "The bed";
    }
    if (std::string dates = datesOf(reduction); !dates.empty()) {
        words.subtitle.push_back(std::move(dates));
    }
    return words;
}

std::vector<LegendRow> legendFor(const MapDrawing& map) {
    std::vector<LegendRow> rows;
    const std::string unit = map.depthUnit == Unit::Foot ? "feet" : "metres";
    if (!map.contours.shown.empty()) {
        rows.push_back({LegendSymbol::DepthColours, "depth in " + unit});
        if (!map.contours.lines.empty()) {
            rows.push_back(
                {LegendSymbol::Contour,
                 "a line every " +
                     printLength(
                         map.contours.table.step * (map.depthUnit == Unit::Foot ? foot : metre),
                         map.depthUnit,
                         0.05)});
        }
    }
    if (!map.contours.shown.empty() && map.shallowest < 0.0) {
        rows.push_back({LegendSymbol::DryBed, "stands dry at this level"});
    }
    if (map.hatchUnknown) {
        rows.push_back({LegendSymbol::Unknown, "not known well enough"});
    }
    if (std::any_of(map.casts.begin(), map.casts.end(), [](const DrawnCast& cast) {
            return cast.end.has_value();
        })) {
        rows.push_back({LegendSymbol::CastLine, "cast"});
    }
    addReadingRows(map, rows);
    if (!map.swims.empty()) {
        rows.push_back({LegendSymbol::SwimDot, "where the rod tip was"});
    }
    if (!map.spots.empty()) {
        rows.push_back({LegendSymbol::Spot, "spot"});
    }
    if (!map.marks.empty()) {
        rows.push_back({LegendSymbol::MarkAbove, "mark to aim at"});
    }
    if (!map.waterline.empty()) {
        rows.push_back({LegendSymbol::Waterline, "waterline as drawn"});
    }
    return rows;
}

std::vector<std::string> mapCautions() {
    return {
        "Not for navigation, diving or judging where to wade.",
        "Keep rods and lines 30 m from overhead power lines (industry guidance).",
        "Margins can be steep; water below 15 °C takes the breath away.",
        "Local rules and the law come first."};
}

} // namespace bedlore
