// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/units/entered.hpp"

// The units in which a map speaks to the man whose notes it shows.

namespace bedlore {

struct NotedUnits {
    Unit depth = Unit::Metre;    ///< foot or metre
    Unit distance = Unit::Metre; ///< yard or metre
    bool inWraps = false;        ///< distances that are told along the line
};

/// What most of a water's readings were noted in: feet where feet and pulls outnumber metres, yards
/// where wraps, turns, yards and feet do, and wraps where more than half are wraps. Metres for a
/// water without readings.
[[nodiscard]] NotedUnits notedUnits(const Book& book, Id<Water> water);

} // namespace bedlore
