// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/book_digests.hpp"
#include "core/io/sqlite_database.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// The tables that make an SQLite file a GeoPackage, and those that make a GeoPackage a book.
// Source: OGC 12-128r14, GeoPackage Encoding Standard 1.2.

namespace bedlore {

/// Ids of the coordinate systems that every GeoPackage has (requirement 11).
inline constexpr int wgs84SrsId = 4326;
inline constexpr int cartesianSrsId = -1;

/// Writes the header fields, the GeoPackage's own tables and those of a book without records into
/// an empty file, inside a transaction of the caller's.
[[nodiscard]] Result<void> createGeoPackage(Database& database);

/// Lists a table without geometry, so that other programs show it.
[[nodiscard]] Result<void>
registerAttributes(Database& database, std::string_view table, std::string_view description);

/// The counters of a book. `derivedFrom` is the edit number that the tables for other programs were
/// made from, none before the first time.
struct BookCounters {
    std::int64_t format = 0;
    std::int64_t nextId = 1;
    std::int64_t editNumber = 0;
    std::optional<std::int64_t> derivedFrom;
    /// SQLite's own count of changes in the file's header after the last write; none where that
    /// write went through the log of another program, which does not count.
    std::optional<std::int64_t> changeCount;
};

/// No life's work comes near it, and twice as much can still be counted and read.
inline constexpr std::int64_t largestCounter = std::int64_t{1} << 52;

/// What a book is whose counters cannot have come about.
[[nodiscard]] Error damagedCounters(const Database& database);

[[nodiscard]] Result<BookCounters> readCounters(const Database& database);

/// Puts all of them into `meta`, with their check sum, if the file still has `editNumberBefore`;
/// false where it has another.
[[nodiscard]] Result<bool>
storeCounters(Database& database, const BookCounters& counters, std::int64_t editNumberBefore);

/// Their check sum, as a table of one row.
[[nodiscard]] TableSum sumOf(const BookCounters& counters);
inline constexpr std::string_view metaTableName = "meta";

/// Fails in a sentence unless the file is a GeoPackage and a book of a format from 1 to `newest`,
/// which it gives. Looks at nothing but the header and `meta`.
[[nodiscard]] Result<int> checkIsBook(const Database& database, int newest);

} // namespace bedlore
