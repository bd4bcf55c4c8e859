// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// The tour through the practice water: its steps, where each looks, and how the book shows that a
// planted mistake is mended. The words stand in tour_words.

namespace bedlore {

enum class TourStep : std::uint8_t {
    Welcome,
    TypeALine,
    AskTheMap,
    SideView,
    FeetForMetres,
    OneWrap,
    AimsSwapped,
    Sticks,
    Pulls,
    Level,
    FloatUp,
    Hump,
    Bar,
    Felt,
    Weed,
    YourOwn,
};
inline constexpr std::size_t tourStepCount = 16;

/// A name that settings keep: "one-wrap".
[[nodiscard]] std::string_view tourStepName(TourStep step);
[[nodiscard]] std::optional<TourStep> tourStepNamed(std::string_view name);

/// How things stand with a step in the book. `ToRead`: nothing is to be done. `Open`: it is as it
/// came. `Done`: typed, mended, or left alone where that is right. `Otherwise`: changed, but not
/// to what is true.
enum class TourState : std::uint8_t { ToRead, Open, Done, Otherwise };

/// Told by what the records mean, so any way of writing the same thing counts.
[[nodiscard]] TourState tourState(const Book& book, TourStep step);

/// Where a step looks: a line of the page of a visit (from 0) and the aim whose side view shows
/// the sign.
struct TourLine {
    Id<Visit> visit;
    int line = 0;
    std::string aim;
    friend bool operator==(const TourLine&, const TourLine&) = default;
};
/// None where the step looks nowhere, or its page is no longer in the book.
[[nodiscard]] std::optional<TourLine> tourLine(const Book& book, TourStep step);

/// The text of that line as it came and as it may be mended; empty where nothing is to be mended.
/// Of the two aims that were swapped it is the first; `alsoPlanted` is the second as it came.
struct TourMending {
    std::string_view planted;
    std::string_view mended;
    std::string_view alsoPlanted = {};
};
[[nodiscard]] TourMending tourMending(TourStep step);

} // namespace bedlore
