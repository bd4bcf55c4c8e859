// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/book_digests.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/sqlite_database.hpp"

#include <filesystem>
#include <string>
#include <vector>

// What can be said of a book's file from outside, and of all that is in it.

namespace bedlore {

/// The name without its folder, in quotes, as sentences have it.
[[nodiscard]] std::string namedFile(const std::filesystem::path& path);

/// What keeps the file from being a book, before anything is opened: not there, a folder, a device,
/// empty, not to be read.
[[nodiscard]] Result<void> checkFile(const std::filesystem::path& path);

/// Whether a write was cut off and is still to be taken back: SQLite's journal lies beside the file
/// with its first bytes in place.
[[nodiscard]] bool hasHotJournal(const std::filesystem::path& path);

/// Whether the file and its folder may be written to.
[[nodiscard]] bool mayWriteBeside(const std::filesystem::path& path);

/// Fails where the file ends within a page, which SQLite reads as if zeros followed. Inside a
/// transaction of the caller's.
[[nodiscard]] Result<void>
checkLastPage(const Database& database, const std::filesystem::path& path);

/// Tables whose rows are not those that this program wrote last, and whether another program has
/// written to the file since, so that they may be its edits.
struct SumsFound {
    std::vector<std::string> different;
    bool anotherWrote = false;
    [[nodiscard]] bool areDamage() const { return !different.empty() && !anotherWrote; }
};

/// Holds the rows that were read against the check sums in the file, inside a transaction of the
/// caller's.
[[nodiscard]] Result<SumsFound>
compareSums(const Database& database, const BookCounters& counters, const BookDigests& digests);

/// What `tables` that are not as they were written mean for him.
[[nodiscard]] Error
damagedTables(const std::filesystem::path& path, const std::vector<std::string>& tables);

/// What the tables hold, in his words: "swims", "swims and page lines", "swims, casts and
/// readings".
[[nodiscard]] std::string namedTables(const std::vector<std::string>& tables);

/// "ok", or everything that is wrong with pages, references, records and check sums, one after the
/// other. Inside a transaction of the caller's.
[[nodiscard]] std::string integrityOf(const Database& database, const std::filesystem::path& path);

} // namespace bedlore
