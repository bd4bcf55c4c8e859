// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <utility>

// A record's columns, one after the other, on their way to where they are kept and back: the
// book's file (`statement_columns`) or a table of text (`csv_columns`).

namespace bedlore {

/// Puts a record's columns in their order. The first thing that cannot be kept is in `problem`.
class ColumnWriter {
public:
    virtual ~ColumnWriter() = default;

    virtual void null() = 0;
    virtual void integer(std::int64_t value) = 0;
    void real(double value) {
        if (!std::isfinite(value)) {
            say("a number is not finite");
            value = 0.0;
        }
        putReal(value);
    }
    virtual void text(std::string_view value) = 0;
    /// `value` stays where it is until the record is written.
    virtual void blob(std::span<const std::byte> value) = 0;

    void say(std::string problem) {
        if (problem_.empty()) {
            problem_ = std::move(problem);
        }
    }
    [[nodiscard]] const std::string& problem() const { return problem_; }

protected:
    ColumnWriter() = default;
    ColumnWriter(const ColumnWriter&) = default;
    ColumnWriter& operator=(const ColumnWriter&) = default;

    virtual void putReal(double value) = 0;

private:
    std::string problem_;
};

/// What `say` is told of a column that holds something although the first of its field does not.
inline constexpr const char* halfThere = "a value is only half there";

/// Takes a row's columns in their order. Whatever is not of the kind asked for gives a harmless
/// value, and `say` is told.
class ColumnReader {
public:
    virtual ~ColumnReader() = default;

    /// Whether the next column holds nothing. Does not go on to the one after.
    [[nodiscard]] virtual bool isNull() const = 0;
    /// Goes on past `count` columns that must hold nothing.
    void skipNulls(int count) {
        for (int i = 0; i < count; ++i) {
            const bool held = !isNull();
            skip();
            if (held) {
                say(halfThere);
            }
        }
    }
    virtual std::int64_t integer() = 0;
    int smallInteger() {
        const std::int64_t value = integer();
        if (value < std::numeric_limits<int>::min() || value > std::numeric_limits<int>::max()) {
            say("a whole number is too large");
            return 0;
        }
        return static_cast<int>(value);
    }
    virtual double real() = 0;
    /// What this and `blob` give lasts until the next column is read.
    virtual std::string_view text() = 0;
    virtual std::span<const std::byte> blob() = 0;

    /// Notes that the column read last is not as it should be.
    virtual void say(const std::string& problem) = 0;

protected:
    ColumnReader() = default;
    ColumnReader(const ColumnReader&) = default;
    ColumnReader& operator=(const ColumnReader&) = default;

    virtual void skip() = 0;
};

} // namespace bedlore
