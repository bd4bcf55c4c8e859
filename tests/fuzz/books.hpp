// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/book/edit.hpp"

#include <cstdint>
#include <string>

// The books that fuzzers bring their inputs to.

namespace bedlore::fuzz {

struct MadeBook {
    Edits edits; ///< that make it from nothing
    Book book;
    std::int64_t nextId = 1;
};

/// A water, a measured reel, a mark, a word of his own and an answer: what a page may lean on.
[[nodiscard]] const MadeBook& bookToTypeInto();

/// The same with a swim on the map and a visit there, its cast of two readings named "1": what rows
/// of a table may go on from or contradict.
[[nodiscard]] const MadeBook& bookToImportInto();

/// The bytes of a small book's file that holds every kind of record.
[[nodiscard]] const std::string& bytesOfABook();

} // namespace bedlore::fuzz
