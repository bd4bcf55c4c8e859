// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/kinds.hpp"
#include "core/book/page.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// The words of a typed line: what he felt, what came up, what went wrong.

namespace bedlore {

/// What one word or phrase says. "soft" and "hard" by themselves are the bottom; the drop is "soft
/// drop", "hard drop", "d" or "D".
using Felt = std::variant<Substrate, Cover, Drop, Pull, OnLead, Outcome>;

/// `words` of them were read from the front.
struct FeltWords {
    Felt felt;
    std::size_t words = 1;
};

/// The longest phrase at the front of `words` that the vocabulary knows. Letter case counts only in
/// "D" and "d".
[[nodiscard]] std::optional<FeltWords> readFelt(std::span<const std::string> words);

/// `words` with his own shorthand put into standard words; one of his may stand for several.
[[nodiscard]] std::vector<std::string>
withTaughtWords(const std::vector<std::string>& words, std::span<const Word> taught);

/// Lower case for plain letters; everything else as it is.
[[nodiscard]] std::string lowered(std::string_view text);
/// Split at blanks.
[[nodiscard]] std::vector<std::string> splitWords(std::string_view text);
/// Without blanks at either end.
[[nodiscard]] std::string_view trimmedText(std::string_view text);

} // namespace bedlore
