// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/row_digest.hpp"
#include "core/io/sqlite_database.hpp"

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

// A record's columns, one after the other, on their way into a statement and out of a row.

namespace bedlore {

/// Binds a record's columns in their order. The first thing that cannot be kept is in `problem`,
/// the row's check sum in `digest`.
class ColumnWriter {
public:
    ColumnWriter(Statement& statement, std::string_view table)
        : statement_(statement)
        , digest_(table) {}

    void null() {
        statement_.bindNull(next_++);
        digest_.null();
    }
    void integer(std::int64_t value) {
        statement_.bind(next_++, value);
        digest_.integer(value);
    }
    void real(double value) {
        if (!std::isfinite(value)) {
            say("a number is not finite");
            value = 0.0;
        }
        statement_.bind(next_++, value);
        digest_.real(value);
    }
    void text(std::string_view value) {
        statement_.bind(next_++, value);
        digest_.text(value);
    }
    void blob(std::span<const std::byte> value) {
        statement_.bind(next_++, value);
        digest_.blob(value);
    }

    void say(std::string problem) {
        if (problem_.empty()) {
            problem_ = std::move(problem);
        }
    }
    [[nodiscard]] const std::string& problem() const { return problem_; }
    [[nodiscard]] std::uint64_t digest() const { return digest_.value(); }

private:
    Statement& statement_;
    RowDigest digest_;
    int next_ = 1;
    std::string problem_;
};

/// Reads a row's columns in their order. Whatever is not of the kind asked for gives a harmless
/// value and is in `problem`, the first of them with its column.
class ColumnReader {
public:
    explicit ColumnReader(Statement& row)
        : row_(row) {}

    /// Whether the next column holds nothing. Does not go on to the one after.
    [[nodiscard]] bool isNull() const { return row_.cell(next_).type() == StoredType::Null; }
    /// Goes on past `count` columns that must hold nothing.
    void skipNulls(int count) {
        for (int i = 0; i < count; ++i) {
            if (row_.cell(next_++).type() != StoredType::Null) {
                say("a value is only half there");
            }
        }
    }
    std::int64_t integer() {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Integer) {
            say("a whole number is missing");
            return 0;
        }
        return cell.integer();
    }
    int smallInteger() {
        const std::int64_t value = integer();
        if (value < std::numeric_limits<int>::min() || value > std::numeric_limits<int>::max()) {
            say("a whole number is too large");
            return 0;
        }
        return static_cast<int>(value);
    }
    double real() {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Real) {
            say("a number is missing");
            return 0.0;
        }
        const double value = cell.real();
        if (!std::isfinite(value)) {
            say("a number is not finite");
            return 0.0;
        }
        return value;
    }
    std::string_view text() {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Text) {
            say("a text is missing");
            return {};
        }
        return cell.text();
    }
    std::span<const std::byte> blob() {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Blob) {
            say("the bytes are missing");
            return {};
        }
        return cell.blob();
    }

    /// Notes that the column read last is not as it should be.
    void say(const std::string& problem) {
        if (problem_.empty()) {
            problem_ = problem;
            problemColumn_ = next_ - 1;
        }
    }
    [[nodiscard]] const std::string& problem() const { return problem_; }
    [[nodiscard]] int problemColumn() const { return problemColumn_; }

private:
    Statement& row_;
    int next_ = 0;
    int problemColumn_ = 0;
    std::string problem_;
};

} // namespace bedlore
