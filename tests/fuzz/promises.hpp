// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/error.hpp"
#include "core/book/book.hpp"
#include "core/io/import.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

// What the program promises whatever the bytes. Each check ends the run where one is not kept.

namespace bedlore::fuzz {

/// UTF-8 that no terminal obeys.
void mustBeShowable(std::string_view words);

/// A sentence for a person.
void mustBeASentence(std::string_view words);

/// Those lead to a book, and their inverse leads back to the one before, exactly.
[[nodiscard]] Book mustApply(const Book& book, const Edits& edits);

/// Everything can be reduced, and what comes out is finite.
void mustReduce(const Book& book);

/// Kept in a file and opened again, the records are the same.
void mustBeStored(const Book& book, const Edits& edits, std::int64_t nextId);

/// An import ends with a plan, a list of bad rows or a sentence; a refused one plans nothing; the
/// same file is not taken twice. Gives the plan where there is one to carry out.
[[nodiscard]] std::optional<ImportPlan>
mustImport(const Book& book, std::int64_t nextId, const std::filesystem::path& file);

} // namespace bedlore::fuzz
