// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sqlite_database.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Check sums over everything that was noted, by which a flipped bit is told from an edit.
//
// The file holds in its table `digests`, for each table of records and for `meta`, how many rows
// were written and the sum of their digests; both change in the transaction that changes the rows.
// Where the rows of a file give other sums, either the file was damaged or another program wrote in
// it, and the count of changes that SQLite keeps in the file's header tells which.

namespace bedlore {

/// How many rows, and the sum of their digests modulo 2^64.
struct TableSum {
    std::int64_t rows = 0;
    std::uint64_t sum = 0;
    friend bool operator==(const TableSum&, const TableSum&) = default;
};

/// The digest of every row as this program knows it. What is put and removed can be taken back as
/// long as it is not kept.
class BookDigests {
public:
    /// A row whose id is above all others of its table: how a stored table is read.
    void append(std::string_view table, std::int64_t id, std::uint64_t digest);
    void put(std::string_view table, std::int64_t id, std::uint64_t digest);
    void remove(std::string_view table, std::int64_t id);
    void keep() { before_.clear(); }
    void takeBack();

    [[nodiscard]] TableSum sumOf(std::string_view table) const;
    /// The tables, in the order of their names, in which `other` has other rows.
    [[nodiscard]] std::vector<std::string> difference(const BookDigests& other) const;

private:
    struct Row {
        std::int64_t id = 0;
        std::uint64_t digest = 0;
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct Rows {
        std::vector<Row> rows; ///< in the order of their ids
        std::uint64_t sum = 0;
    };
    struct Before {
        std::string_view table;
        std::int64_t id = 0;
        std::optional<std::uint64_t> digest;
    };
    Rows& of(std::string_view table);
    void set(std::string_view table, std::int64_t id, std::optional<std::uint64_t> digest);

    std::map<std::string, Rows, std::less<>> tables_;
    std::vector<Before> before_;
};

/// Makes the table that holds the sums and lists `tables` in it, inside a transaction of the
/// caller's.
[[nodiscard]] Result<void>
createDigestTable(Database& database, const std::vector<std::string_view>& tables);

/// What the file says that was written, by the name of the table.
using StoredSums = std::map<std::string, TableSum, std::less<>>;
[[nodiscard]] Result<StoredSums> readStoredSums(const Database& database);

[[nodiscard]] Result<void>
storeSum(Database& database, std::string_view table, const TableSum& sum);

} // namespace bedlore
