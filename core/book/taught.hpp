// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// What he taught the book: words of his own, and the answers that it remembers.

namespace bedlore {

using TaughtRecord = std::variant<Id<Word>, Id<Answer>>;

/// `asked` is what he writes or what was asked ("gv", "11.6 in feet", "bare depths, the Point, 12
/// April 2025"), `meaning` what it means in words.
struct Taught {
    /// One of the answers that the question can have: as shown, and as kept.
    struct Choice {
        std::string words;
        std::string value;
        friend bool operator==(const Choice&, const Choice&) = default;
    };
    TaughtRecord record;
    std::string asked;
    std::string meaning;
    bool isWord = false;         ///< it may mean any words of the vocabulary
    std::vector<Choice> choices; ///< for a question that is no word
    friend bool operator==(const Taught&, const Taught&) = default;
};

/// Words by the alphabet, then the other answers in the order in which they were given.
[[nodiscard]] std::vector<Taught> taughtIn(const Book& book);

/// Teaches that `text` means `meaning`, in place of what it meant before. Fails in a sentence where
/// `text` is not one word or `meaning` holds a word that the book does not know; `onlyANote` makes
/// it no word at all.
[[nodiscard]] Result<Edits>
teach(const Book& book, const std::string& text, const std::string& meaning, IdSource& ids);

/// Another of the answers that `taught` offers.
[[nodiscard]] Edits answerAnew(const Book& book, const Taught& taught, const std::string& value);

/// What was taught is asked about again. Empty where it is no longer there.
[[nodiscard]] Edits forget(const Book& book, const TaughtRecord& record);

/// `taught`, and what it makes of every page of the book that reads otherwise after it.
[[nodiscard]] Result<Edits> withPagesReread(const Book& book, Edits taught, IdSource& ids);

/// The edits that bring every page but `except` in line with `now`, where its lines mean something
/// else than they did by what `before` was taught.
[[nodiscard]] Result<Edits>
rereadPages(const Book& before, const Book& now, std::optional<Id<Page>> except, IdSource& ids);

/// All words that a meaning may be made of, each once, the bottom first.
[[nodiscard]] std::vector<std::string_view> vocabulary();

} // namespace bedlore
