// SPDX-License-Identifier: MIT
#include "core/io/csv_columns.hpp"

#include "core/io/base64.hpp"
#include "core/io/import_text.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <charconv>
#include <optional>
#include <utility>

namespace bedlore {

namespace {

std::span<const std::byte> bytesOf(std::string_view text) {
    return std::as_bytes(std::span<const char>(text.data(), text.size()));
}

std::optional<double> decimalIn(std::string_view text, char separator) {
    if (separator == ';' && std::count(text.begin(), text.end(), ',') == 1 &&
        text.find('.') == std::string_view::npos) {
        std::string pointed(text);
        pointed[text.find(',')] = '.';
        return readDecimal(pointed);
    }
    return readDecimal(text);
}

} // namespace

std::optional<std::int64_t> wholeNumberIn(std::string_view text) {
    const std::string_view digits = trimmed(text);
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const bool whole = error == std::errc{} && end == digits.data() + digits.size();
    return whole ? std::optional(value) : std::nullopt;
}

void CsvColumnWriter::text(std::string_view value) {
    if (firstBadByte(value)) {
        cells_.push_back({.text = toBase64(bytesOf(value)), .form = CellForm::LongBytes});
        return;
    }
    cells_.push_back(
        {.text = std::string(value),
         .form = value.size() > longestCell ? CellForm::LongText : CellForm::InPlace});
}

void CsvColumnWriter::blob(std::span<const std::byte> value) {
    std::string text = toBase64(value);
    if (text.size() + bytesMark.size() > longestCell) {
        cells_.push_back({.text = std::move(text), .form = CellForm::LongBytes});
    } else {
        cells_.push_back({.text = std::string(bytesMark) + text});
    }
}

void CsvColumnWriter::putReal(double value) {
    cells_.push_back({.text = printExact(value)});
}

std::int64_t CsvColumnReader::integer() {
    const std::optional<std::int64_t> value = wholeNumberIn(cells_[next_++].text);
    if (!value) {
        say("");
    }
    return value.value_or(0);
}

double CsvColumnReader::real() {
    const std::optional<double> value = decimalIn(cells_[next_++].text, separator_);
    if (!value) {
        say("");
    }
    return value.value_or(0.0);
}

std::span<const std::byte> CsvColumnReader::blob() {
    const FoundCell& cell = cells_[next_++];
    if (cell.isBytes) {
        return bytesOf(cell.text);
    }
    auto bytes = cell.text.starts_with(bytesMark) ? fromBase64(cell.text.substr(bytesMark.size()))
                                                  : std::nullopt;
    if (!bytes) {
        say("");
        return {};
    }
    bytes_ = std::move(*bytes);
    return bytes_;
}

void CsvColumnReader::say(const std::string& problem) {
    const std::size_t column = next_ - 1;
    if (problems_.empty() || problems_.back().column != column) {
        problems_.push_back({.column = column, .what = problem});
    }
}

std::string expectedIn(const Column& column) {
    std::string words = "text";
    if (!column.choices.empty()) {
        words = "one of " + column.choices;
    } else if (!column.references.empty()) {
        words = "the id of a row of " + std::string(column.references);
    } else if (column.type == "INTEGER") {
        words = "a whole number";
    } else if (column.type == "REAL") {
        words = "a number";
    } else if (column.type == "BOOLEAN") {
        words = "1 for yes or 0 for no";
    } else if (column.type == "DATE") {
        words = "a day of the calendar as YYYY-MM-DD";
    } else if (column.type == "BLOB") {
        words = "\"" + std::string(bytesMark) + "\" and the bytes in base64";
    } else if (column.comment == "JSON") {
        words = "JSON as this program writes it";
    }
    return words + (column.required ? "" : ", or nothing");
}

} // namespace bedlore
