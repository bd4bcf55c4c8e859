// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/sqlite_database.hpp"
#include "core/io/xxhash.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

// The check sum of one row of a table.

namespace bedlore {

/// Takes in a row's columns in their order: each is hashed (XXH64, numbers as 8 bytes
/// little-endian) under the sum of what came before plus the number of its kind, the table's name
/// first of all. So a value that moved to another column, row or table is noticed as much as one
/// that changed.
class RowDigest {
public:
    explicit RowDigest(std::string_view table) { take(std::as_bytes(std::span(table)), 0); }

    void null() { take({}, 1); }
    void integer(std::int64_t value) { take(std::as_bytes(std::span(&value, 1)), 2); }
    void real(double value) {
        // SQLite does not keep the sign of a zero.
        const double kept = value == 0.0 ? 0.0 : value;
        take(std::as_bytes(std::span(&kept, 1)), 3);
    }
    void text(std::string_view value) { take(std::as_bytes(std::span(value)), 4); }
    void blob(std::span<const std::byte> value) { take(value, 5); }
    void cell(const Cell& cell) {
        switch (cell.type()) {
        case StoredType::Null:
            return null();
        case StoredType::Integer:
            return integer(cell.integer());
        case StoredType::Real:
            return real(cell.real());
        case StoredType::Text:
            return text(cell.text());
        case StoredType::Blob:
            return blob(cell.blob());
        }
    }

    [[nodiscard]] std::uint64_t value() const { return sum_; }

private:
    void take(std::span<const std::byte> bytes, std::uint64_t kind) {
        sum_ = xxHash64(bytes, sum_ + kind);
    }

    std::uint64_t sum_ = 0;
};

} // namespace bedlore
