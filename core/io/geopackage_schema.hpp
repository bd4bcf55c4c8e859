// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
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

/// Writes the header fields, the GeoPackage's own tables and `meta` into an empty file, inside a
/// transaction of the caller's.
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
};

[[nodiscard]] Result<BookCounters> readCounters(const Database& database);

/// Fails in a sentence unless the file is a GeoPackage and a book of a format that this program
/// reads. Looks at nothing but the header and `meta`.
[[nodiscard]] Result<void> checkIsBook(const Database& database);

} // namespace bedlore
