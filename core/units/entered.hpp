// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// A measurement as he entered it: the number, its unit and the very text.

namespace bedlore {

/// Units that a person may write. Some have no fixed size: a wrap depends on the sticks, a turn on
/// the reel, a pull on the rod, a step on the water's reference.
enum class Unit : std::uint8_t {
    Metre,
    Centimetre,
    Yard,
    Foot,
    Inch,
    Wrap,
    Turn,
    Pull,
    Step,
    Second,
    Degree,
    Fist,
    Finger,
    ClockHour,
    Kilogram,
    Pound,
    Ounce,
    Litre,
    Load,
    One, ///< a plain number
};

/// `number` is in `unit`; `text` is what was typed, word for word ("28½", "11'6"). Nothing computed
/// ever takes its place.
struct Entered {
    double number = 0.0;
    Unit unit = Unit::One;
    std::string text = {};

    friend bool operator==(const Entered&, const Entered&) = default;
};

/// Short names as stored in files: "m", "yd", "ft", "wrap", "turn", … Read back by `unitFromCode`.
[[nodiscard]] std::string_view unitCode(Unit unit);
[[nodiscard]] std::optional<Unit> unitFromCode(std::string_view code);

} // namespace bedlore
