// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/bearing.hpp"
#include "core/units/entered.hpp"
#include "core/units/length.hpp"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

// Reading and printing of numbers and units. Nothing else in the program parses or prints a
// measurement.

namespace bedlore {

/// A number as a person writes it: "28½", "28 1/2", "1/2", "9.5", "9,5", "-2". Whole text or
/// nothing; never depends on the locale.
[[nodiscard]] std::optional<double> readNumber(std::string_view text);

/// A plain decimal number of a file (point, exponent allowed, no NaN or infinity). Whole text or
/// nothing.
[[nodiscard]] std::optional<double> readDecimal(std::string_view text);

/// A length with its unit or without: "62y", "62 yd", "3.4m", "11'6", "11'", "9p", "95t", "26w",
/// "12 ft", "12 in", "0,35 m". A bare number gets `bare`; none where `bare` is empty. `text` of the
/// result is what was typed.
[[nodiscard]] std::optional<Entered> readMeasure(std::string_view text, std::optional<Unit> bare);

/// The length of a measure whose unit has a fixed size (m, cm, yd, ft, in); none for wraps, turns,
/// pulls, steps.
[[nodiscard]] std::optional<Length> fixedLength(const Entered& entered);

/// "26¾", "9½", "-2", "7": quarters as fractions where the number is one (to 1e-9), else at most
/// `decimals` decimals, trailing zeros dropped.
[[nodiscard]] std::string printNumber(double number, int decimals = 2);
/// Always decimals with a point, for files: shortest text that reads back to the same double.
[[nodiscard]] std::string printExact(double number);
/// Fixed decimals with a point.
[[nodiscard]] std::string printFixed(double number, int decimals);

/// A length in `unit` (m, cm, yd, ft, in) with its unit's name, to a step that suits reading: "8½
/// ft", "97.8 m", "107 yd". `step` in that unit, 0 for the usual one.
[[nodiscard]] std::string printLength(Length length, Unit unit, double step = 0.0);
/// "3 ft 6 in"-like exactness is not wanted on screen; this is the name alone: "ft", "wraps", "yd".
[[nodiscard]] std::string_view unitName(Unit unit, double number = 2.0);
/// A number with its unit as entered: "26¾ wraps", "9 pulls", "11½ ft".
[[nodiscard]] std::string printEntered(const Entered& entered);

/// "within about half a foot", "within about 6 in", "within about 0.2 m": an error (1 sd) in plain
/// words, in the family of `unit`. States the 95 % half-width rounded to one figure that a person
/// would say.
[[nodiscard]] std::string withinAbout(Length sigma, Unit unit);

/// "2025-04-12", for files.
[[nodiscard]] std::string isoDate(std::chrono::year_month_day date);

} // namespace bedlore
