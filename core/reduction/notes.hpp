// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <vector>

// A water's records gathered by visit and cast in one pass over the book, so that a lifetime's
// notes are not searched once for every cast.

namespace bedlore {

/// One throw with its readings in reading order. Pointers into the book, which must outlive them.
struct CastNotes {
    const Cast* cast = nullptr;
    std::vector<const Reading*> readings;
};

/// One visit with its aims and casts, each in its own order.
struct VisitNotes {
    const Visit* visit = nullptr;
    std::vector<const Aim*> aims;
    std::vector<CastNotes> casts;
};

/// The visits of a water by date, then entry.
[[nodiscard]] std::vector<VisitNotes> notesOf(const Book& book, Id<Water> water);

} // namespace bedlore
