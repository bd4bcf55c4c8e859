// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/column_cursor.hpp"
#include "core/io/field_codec.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// A record's columns as cells of a table of text, and back, to the last bit.

namespace bedlore {

/// A cell longer than this stands in pieces in a table of its own: spreadsheets and other programs
/// cut longer ones off [bytes].
inline constexpr std::size_t longestCell = 30'000;

/// Stands before bytes, so that no bytes and bytes of no length are two things.
inline constexpr std::string_view bytesMark = "base64:";

/// How a cell is written: where it belongs, or in pieces elsewhere, as text or as base64. Text that
/// no table can hold (a NUL, not UTF-8) goes as bytes.
enum class CellForm : std::uint8_t { InPlace, LongText, LongBytes };

struct WrittenCell {
    std::string text;
    CellForm form = CellForm::InPlace;
};

/// Gathers a record's columns. Nothing is an empty cell, and so is a text of no length: which of
/// the two a column means shows in the first column of its field.
class CsvColumnWriter final : public ColumnWriter {
public:
    void null() override { cells_.emplace_back(); }
    void integer(std::int64_t value) override { cells_.push_back({.text = std::to_string(value)}); }
    void text(std::string_view value) override;
    void blob(std::span<const std::byte> value) override;

    [[nodiscard]] std::vector<WrittenCell>& cells() { return cells_; }

private:
    void putReal(double value) override;

    std::vector<WrittenCell> cells_;
};

/// A cell as found: its text, or the bytes that its pieces say.
struct FoundCell {
    std::string_view text;
    bool isBytes = false;
};

/// What is wrong with the cell of one column.
struct CellProblem {
    std::size_t column = 0;
    std::string what;
};

/// Reads a row's cells, which stay where they are meanwhile, in the order of the columns.
class CsvColumnReader final : public ColumnReader {
public:
    /// A table between semicolons may have decimal commas, as spreadsheets of many countries write
    /// it.
    CsvColumnReader(std::span<const FoundCell> cells, char separator)
        : cells_(cells)
        , separator_(separator) {}

    [[nodiscard]] bool isNull() const override {
        return cells_[next_].text.empty() && !cells_[next_].isBytes;
    }
    std::int64_t integer() override;
    double real() override;
    std::string_view text() override { return cells_[next_++].text; }
    std::span<const std::byte> blob() override;
    void say(const std::string& problem) override;

    /// At most one for each column.
    [[nodiscard]] const std::vector<CellProblem>& problems() const { return problems_; }

private:
    void skip() override { ++next_; }

    std::span<const FoundCell> cells_;
    char separator_;
    std::size_t next_ = 0;
    std::vector<std::byte> bytes_;
    std::vector<CellProblem> problems_;
};

/// Blanks around it aside; whole text or nothing.
[[nodiscard]] std::optional<std::int64_t> wholeNumberIn(std::string_view text);

/// What a cell of this column should hold, in words.
[[nodiscard]] std::string expectedIn(const Column& column);

} // namespace bedlore
