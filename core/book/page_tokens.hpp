// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/entered.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// A typed line taken apart into words and measures.

namespace bedlore {

/// A word of a line, a measure of several ("28 1/2", "11 ft 6 in", "27 to 25"), or one of the signs
/// , ; : ? ! that ended a word. `begin` and `end` are bytes of the line; `text` has plain dashes.
struct Token {
    std::string text;
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// The tokens of a line in their order. "gr/si" is two words.
[[nodiscard]] std::vector<Token> readTokens(std::string_view line);

/// Whether a word begins with a number, after any of ~ - +.
[[nodiscard]] bool startsLikeNumber(std::string_view text);

/// A number or two with what stands before them.
struct Range {
    Entered from;
    std::optional<Entered> to;
    bool about = false;      ///< "~25"
    bool nearer = false;     ///< "-6t"
    bool hasOwnUnit = false; ///< typed with it
};

/// "~25", "27-25", "27-25w", "-6t", "28½". A bare number gets `bare`, and `Unit::One` where that is
/// empty; a unit typed with one of two numbers is meant for both.
[[nodiscard]] std::optional<Range> readRange(std::string_view text, std::optional<Unit> bare);

} // namespace bedlore
