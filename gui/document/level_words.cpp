// SPDX-License-Identifier: MIT
#include "gui/document/level_words.hpp"

#include "core/units/format.hpp"
#include "gui/document/whereabouts.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

/// What the level of such a visit may be out by; empty where it is the zero of the others.
std::string giveOrTake(const ReducedVisit& visit, Unit depthUnit) {
    return visit.levelSigma > Length{} ? printLength(visit.levelSigma, depthUnit) : std::string();
}

/// Another visit whose level counts, the latest of them; null for none.
const ReducedVisit* otherWithLevel(const Reduction& reduction, const ReducedVisit& visit) {
    const ReducedVisit* other = nullptr;
    for (const ReducedVisit& candidate : reduction.visits) {
        if (candidate.levelSaid && candidate.visit != visit.visit) {
            other = &candidate;
        }
    }
    return other;
}

/// "level 2 steps", as it was written on another visit.
std::string exampleOf(const BedMap& map, const ReducedVisit* other) {
    const Visit* record = other != nullptr ? map.book->find(other->visit) : nullptr;
    if (record == nullptr || !record->level) {
        return "\"level 0.35 m\"";
    }
    return "\"level " + printEntered(*record->level) + "\" of " + dateWords(other->date);
}

bool isWorseOff(const BedMap& map, const ReducedVisit& visit) {
    const Visit* record = map.book->find(visit.visit);
    const bool counts = visit.levelSaid || record == nullptr;
    return !counts && (record->level || otherWithLevel(map.reduction, visit) != nullptr);
}

std::string remarkOn(const BedMap& map, const ReducedVisit& visit, Unit depthUnit) {
    const Visit& record = map.book->get(visit.visit);
    const std::string size = giveOrTake(visit, depthUnit);
    const std::string taken = "the water is taken to have stood at the level mark" +
                              (size.empty() ? std::string(", as this is the first day.")
                                            : ", give or take " + size + ".");
    if (record.level) {
        return "\"" + printEntered(*record.level) +
               "\" gives no height, as nothing says how high one is, so " + taken +
               " Say it by \"Level mark of the water\" in the Page menu, or write a length, as in "
               "\"level 0.35 m\".";
    }
    return "No level for this visit: " + taken + " If you read one, write it, as in " +
           exampleOf(map, otherWithLevel(map.reduction, visit)) + ".";
}

const ReducedVisit* visitOf(const Reduction& reduction, const Sounding& sounding) {
    return sounding.line ? &reduction.visits[reduction.casts[sounding.line->cast].visit] : nullptr;
}

} // namespace

std::map<Id<Visit>, std::string> levelRemarks(const BedMap& map, Unit depthUnit) {
    std::map<Id<Visit>, std::string> remarks;
    for (const ReducedVisit& visit : map.reduction.visits) {
        if (isWorseOff(map, visit)) {
            remarks.emplace(visit.visit, remarkOn(map, visit, depthUnit));
        }
    }
    return remarks;
}

std::string levelRemarkAt(const BedMap& map, Point place, Unit depthUnit) {
    const Reduction& reduction = map.reduction;
    const auto asks = [&](const ReducedVisit& visit) { return isWorseOff(map, visit); };
    if (std::none_of(reduction.visits.begin(), reduction.visits.end(), asks)) {
        return {};
    }
    const auto nearest = std::min_element(
        reduction.soundings.begin(),
        reduction.soundings.end(),
        [&](const Sounding& a, const Sounding& b) {
            return std::hypot(a.place.east - place.east, a.place.north - place.north) <
                   std::hypot(b.place.east - place.east, b.place.north - place.north);
        });
    const ReducedVisit* visit =
        nearest == reduction.soundings.end() ? nullptr : visitOf(reduction, *nearest);
    if (visit == nullptr || !isWorseOff(map, *visit)) {
        return {};
    }
    const std::string size = giveOrTake(*visit, depthUnit);
    return "the nearest depth is of " + dateWords(visit->date) + "; no level was said" +
           (size.empty() ? std::string() : ": it may be out by " + size);
}

} // namespace bedlore
