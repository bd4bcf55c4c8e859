// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/column_cursor.hpp"
#include "core/io/row_digest.hpp"
#include "core/io/sqlite_database.hpp"

// A record's columns into a statement of the book's file and out of its rows.

namespace bedlore {

/// Binds a record's columns in their order; the row's check sum is in `digest`.
class StatementWriter final : public ColumnWriter {
public:
    StatementWriter(Statement& statement, std::string_view table)
        : statement_(statement)
        , digest_(table) {}

    void null() override {
        statement_.bindNull(next_++);
        digest_.null();
    }
    void integer(std::int64_t value) override {
        statement_.bind(next_++, value);
        digest_.integer(value);
    }
    void text(std::string_view value) override {
        statement_.bind(next_++, value);
        digest_.text(value);
    }
    void blob(std::span<const std::byte> value) override {
        statement_.bind(next_++, value);
        digest_.blob(value);
    }
    [[nodiscard]] std::uint64_t digest() const { return digest_.value(); }

private:
    void putReal(double value) override {
        statement_.bind(next_++, value);
        digest_.real(value);
    }

    Statement& statement_;
    RowDigest digest_;
    int next_ = 1;
};

/// Keeps the first problem with its column.
class StatementReader final : public ColumnReader {
public:
    explicit StatementReader(Statement& row)
        : row_(row) {}

    [[nodiscard]] bool isNull() const override {
        return row_.cell(next_).type() == StoredType::Null;
    }
    std::int64_t integer() override {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Integer) {
            say("a whole number is missing");
            return 0;
        }
        return cell.integer();
    }
    double real() override {
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
    std::string_view text() override {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Text) {
            say("a text is missing");
            return {};
        }
        return cell.text();
    }
    std::span<const std::byte> blob() override {
        const Cell cell = row_.cell(next_++);
        if (cell.type() != StoredType::Blob) {
            say("the bytes are missing");
            return {};
        }
        return cell.blob();
    }

    void say(const std::string& problem) override {
        if (problem_.empty()) {
            problem_ = problem;
            problemColumn_ = next_ - 1;
        }
    }
    [[nodiscard]] const std::string& problem() const { return problem_; }
    [[nodiscard]] int problemColumn() const { return problemColumn_; }

private:
    void skip() override { ++next_; }

    Statement& row_;
    int next_ = 0;
    int problemColumn_ = 0;
    std::string problem_;
};

} // namespace bedlore
