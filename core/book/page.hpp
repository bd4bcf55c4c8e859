// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/imported_file.hpp"
#include "core/book/reading.hpp"
#include "core/book/spot.hpp"
#include "core/book/water.hpp"

#include <cstdint>
#include <optional>
#include <string>

// The notebook page as typed, and what he taught the book about his own shorthand.

namespace bedlore {

/// A page of the notebook. Its lines are records of their own.
struct Page {
    Id<Page> id;
    Id<Water> water;
    std::string author;
    std::optional<Id<ImportedFile>> file;
    friend bool operator==(const Page&, const Page&) = default;
};

/// What a line became. A note is never a fault; an unclear line is kept as typed and blocks
/// nothing.
enum class LineKind : std::uint8_t { Blank, Header, Reading, Spot, Note, Unclear };

struct PageLine {
    Id<PageLine> id;
    Id<Page> page;
    int order = 0;
    std::string text; ///< word for word
    LineKind kind = LineKind::Note;
    std::optional<Id<Reading>> reading;
    std::optional<Id<Spot>> spot;
    friend bool operator==(const PageLine&, const PageLine&) = default;
};

/// A word of his own and the standard code or word that it stands for, taught once.
struct Word {
    Id<Word> id;
    std::string text;
    std::string meaning;
    friend bool operator==(const Word&, const Word&) = default;
};

/// What he answered when the book asked once: "11.6 ft" → "inches".
struct Answer {
    Id<Answer> id;
    std::string question;
    std::string answer;
    friend bool operator==(const Answer&, const Answer&) = default;
};

} // namespace bedlore
