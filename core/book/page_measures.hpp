// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"
#include "core/book/page_reading.hpp"
#include "core/book/page_tokens.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The distances and depths of a typed line: their units, and what about them has to be asked.

namespace bedlore {

/// What is asked once and remembered. The bare numbers of each visit are a question of their own:
/// behind these words stand its swim and date.
inline constexpr std::string_view pointQuestion = "point in feet"; ///< answer: inches or tenths
inline constexpr std::string_view bareDistanceQuestion = "bare distance";
inline constexpr std::string_view bareDepthQuestion = "bare depth";
inline constexpr std::array<Unit, 4> bareDistanceUnits{
    Unit::Wrap, Unit::Yard, Unit::Metre, Unit::Turn};
inline constexpr std::array<Unit, 3> bareDepthUnits{Unit::Foot, Unit::Pull, Unit::Metre};

/// "feet", "yards", "pulls": a unit as an answer.
[[nodiscard]] std::string unitWord(Unit unit);

/// Why a measure cannot be used as it stands, and what would mend it.
struct MeasureFault {
    std::string what;
    std::vector<LineOffer> offers;
};

/// What a bare number means: what the page says, else what he answered for this visit.
[[nodiscard]] std::optional<Unit> bareDistance(const ReadingRules& rules);
[[nodiscard]] std::optional<Unit> bareDepth(const ReadingRules& rules);

/// What he answered about the bare numbers of `before`, as answers about `now`, which is what that
/// visit is called since; ids are those of the answers. Without those that `now` has already.
[[nodiscard]] std::vector<Answer>
answersRenamed(const PageContext& context, const PageSection& before, const PageSection& now);

/// None where the distance of `reading` can be used. `typed` is where it stands in `line`.
[[nodiscard]] std::optional<MeasureFault> distanceFault(
    const Reading& reading, const Token& typed, std::string_view line, const ReadingRules& rules);

/// A depth as typed, and what is unclear about it.
struct TypedDepth {
    DepthEntry depth;
    std::optional<MeasureFault> fault;
    bool hasOwnUnit = false;
};

/// None where `text` is no depth at all.
[[nodiscard]] std::optional<TypedDepth> readDepth(std::string_view text, const ReadingRules& rules);

/// A distance as typed, for spots and lengths used.
[[nodiscard]] std::optional<Entered>
readDistance(std::string_view text, std::optional<Unit> bareDistance);

/// About how long a count is [m], for telling nearer from farther only: sticks of the section, 0.9
/// m a turn.
[[nodiscard]] double roughMetres(const Entered& distance, const PageSection& section);

} // namespace bedlore
