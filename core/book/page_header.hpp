// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Header lines of a page: swim, date, level, sticks, reel, distances, depths, float, aim, tip,
// bearings, note.

namespace bedlore {

/// What a header line sets. `meaning` says it in words, or what is unclear.
struct HeaderLine {
    enum class Key {
        Swim,
        Day,
        Level,
        Sticks,
        Reel,
        Distances,
        Depths,
        Float,
        Aim,
        Tip,
        Bearings,
        Note
    };
    Key key = Key::Note;
    LineMeaning meaning;
    std::string text; ///< swim, reel, note
    std::optional<Date> date;
    std::optional<Entered> measure; ///< level, sticks, tip
    WrapCounts wrapCounts = WrapCounts::Pass;
    std::optional<Unit> unit; ///< distances, depths
    std::optional<FloatRig> rig;
    std::optional<AimDraft> aim;
    BearingSource source = BearingSource::Unsaid;
};

/// Empty where the line is no header. A line that begins with a header's word but goes on as prose
/// is none either.
[[nodiscard]] std::optional<HeaderLine> readHeader(std::string_view line);

/// A line whose first word is one slip of the fingers away from a header's, and whose rest says
/// what that header says: the header's word. None where the line is as likely prose.
[[nodiscard]] std::optional<std::string_view> misspeltHeader(std::string_view line);

/// "12 April 2025"
[[nodiscard]] std::string printDate(Date date);

} // namespace bedlore
