// SPDX-License-Identifier: MIT
#include "core/chart/noted_units.hpp"

#include <set>

namespace bedlore {

namespace {

/// Metric notes count down, the others up.
int side(Unit unit) {
    return unit == Unit::Metre || unit == Unit::Centimetre ? -1 : 1;
}

} // namespace

NotedUnits notedUnits(const Book& book, Id<Water> water) {
    std::set<Id<Cast>> casts;
    for (const Cast& cast : book.all<Cast>()) {
        if (book.get(book.get(cast.visit).swim).water == water) {
            casts.insert(cast.id);
        }
    }
    int depths = 0;
    int distances = 0;
    int wraps = 0; // those that are, less those that are not
    for (const Reading& reading : book.all<Reading>()) {
        if (!casts.contains(reading.cast)) {
            continue;
        }
        distances += side(reading.from.unit);
        wraps += reading.from.unit == Unit::Wrap ? 1 : -1;
        depths += reading.depth ? side(reading.depth->value.unit) : 0;
    }
    return {
        .depth = depths > 0 ? Unit::Foot : Unit::Metre,
        .distance = distances > 0 ? Unit::Yard : Unit::Metre,
        .inWraps = wraps > 0};
}

} // namespace bedlore
