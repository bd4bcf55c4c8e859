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

/// `words` of them were read from the front. `isPlainWord` where the word is everyday English too
/// ("free", "clean"), so that it proves nothing by itself.
struct FeltWords {
    Felt felt;
    std::size_t words = 1;
    bool isPlainWord = false;
};

/// The longest phrase at the front of `words` that the vocabulary knows. Letter case counts only in
/// "D" and "d".
[[nodiscard]] std::optional<FeltWords> readFelt(std::span<const std::string> words);

/// What he taught the book about `word`, as a word or as the answer to a question; letter case
/// counts in single letters only. None where he taught nothing.
[[nodiscard]] std::optional<std::string>
taughtMeaning(std::string_view word, std::span<const Word> words, std::span<const Answer> answers);

/// The question that is asked about a word that nobody knows, and the answer that makes it no word
/// at all.
[[nodiscard]] std::string wordQuestion(std::string_view word);
inline constexpr std::string_view onlyANote = "note";

/// Whether it is more likely one of his codes than prose: at most three letters, and no small word
/// of English.
[[nodiscard]] bool looksLikeCode(std::string_view word);

/// Vocabulary words that `code` may be short for ("gv": gravel), the bottom first, at most five.
[[nodiscard]] std::vector<std::string_view> likelyWords(std::string_view code);

/// Whether `a` and `b` differ by one letter too many, too few, wrong, or two changed about; also
/// where they do not differ.
[[nodiscard]] bool isOneSlip(std::string_view a, std::string_view b);

/// The vocabulary word that differs from `word` by one slip of the fingers.
[[nodiscard]] std::optional<std::string_view> misspelt(std::string_view word);

/// Single words of the vocabulary that differ from `word` by two letters at most, and by no more
/// than half of their letters; the nearest first, at most three.
[[nodiscard]] std::vector<std::string_view> nearestWords(std::string_view word);

/// Lower case for plain letters; everything else as it is.
[[nodiscard]] std::string lowered(std::string_view text);
/// Split at blanks.
[[nodiscard]] std::vector<std::string> splitWords(std::string_view text);
/// Without blanks at either end.
[[nodiscard]] std::string_view trimmedText(std::string_view text);

} // namespace bedlore
