// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_measures.hpp"
#include "core/book/page_tokens.hpp"

#include <string_view>

// What is asked about the words of a line that cannot be read as they stand. Each question comes
// with the lines or answers that would settle it; a token is where it stands in `line`.

namespace bedlore {

/// "28 - 9" may be a stretch or a place and its depth. `before` and `behind` stand around the dash.
[[nodiscard]] MeasureFault
looseDashFault(std::string_view line, const Token& before, const Token& behind);

/// A number behind the reading that belongs to nothing.
[[nodiscard]] MeasureFault figuresFault(std::string_view line, const Token& figures);

/// A short code that nobody has taught the book; answers are offered for it.
[[nodiscard]] MeasureFault unknownCodeFault(const Token& code);

/// A slip of the fingers: `meant` is the vocabulary's word.
[[nodiscard]] MeasureFault
misspeltFault(std::string_view line, const Token& typed, std::string_view meant);

/// Two bare numbers and prose from `prose` on: a reading with a note, or only a note.
[[nodiscard]] MeasureFault doubtfulFault(std::string_view line, const Token& prose);

} // namespace bedlore
