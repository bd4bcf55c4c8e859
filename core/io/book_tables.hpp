// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/io/import.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

// A whole book as a folder of tables (CSV) that any program can read, and back.

namespace bedlore {

/// Writes one table for each type of record, all columns, and those that the book as a whole needs.
/// The folder must not be there or be empty; it appears with all of them or not at all. It holds
/// everything that is in `book`: what stays at home is taken out before (`withoutPrivateThings`).
/// `nextId` is the first id not yet given to any record. Gives the names of the files.
[[nodiscard]] Result<std::vector<std::string>> writeBookTables(
    const Book& book,
    std::int64_t nextId,
    const std::filesystem::path& folder,
    const Progress& progress = {});

/// As `planImport`, for files that are the tables of a whole book: its records come in with their
/// own ids. None when no file is such a table. Fails also when only some are, or when the book
/// holds other records under the same ids.
[[nodiscard]] Result<std::optional<ImportPlan>> planBookTables(
    const Book& book,
    std::int64_t nextId,
    const std::vector<std::filesystem::path>& files,
    const ImportOptions& options,
    const Progress& progress);

} // namespace bedlore
