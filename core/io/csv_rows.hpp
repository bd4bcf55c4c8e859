// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/kinds.hpp"
#include "core/book/place.hpp"
#include "core/io/csv_header.hpp"
#include "core/io/csv_reader.hpp"
#include "core/io/import_faults.hpp"
#include "core/units/entered.hpp"

#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

// The cells of a CSV row as values; what cannot be used is noted as a fault of the row.

namespace bedlore {

/// The numbers that a column may hold. `words` is what a person should have written.
struct Bounds {
    double least = std::numeric_limits<double>::lowest();
    double most = std::numeric_limits<double>::max();
    std::string_view words = "a number";
    bool leastItself = true; ///< whether `least` is allowed
};

/// What a cell says of the bottom.
struct BottomWord {
    std::optional<Substrate> substrate = {};
    std::optional<Cover> cover = {};
};

/// The substrate or cover of a word or code, letter case aside; none for another word.
[[nodiscard]] std::optional<BottomWord> bottomWord(std::string_view text);

/// A day of the calendar as YYYY-MM-DD from the year 1000 on; whole text or nothing.
[[nodiscard]] std::optional<Date> dateIn(std::string_view text);

/// A row in hand. Reading a cell that cannot be used notes the fault; the value is then empty, as
/// it is for an empty cell.
class CsvRow {
public:
    CsvRow(const CsvHeader& header, const CsvRecord& record, FaultList& faults)
        : header_(header)
        , record_(record)
        , faults_(faults) {}

    [[nodiscard]] int line() const { return record_.line; }
    /// Whether no fault was noted so far.
    [[nodiscard]] bool isGood() const { return good_; }

    /// Blanks around it taken off; empty where the file has no such column.
    [[nodiscard]] std::string_view text(std::size_t column) const;
    /// A name or label: at most 200 bytes, no control characters.
    [[nodiscard]] std::string name(std::size_t column);
    /// As written, at most 10,000 bytes.
    [[nodiscard]] std::string note(std::size_t column);
    [[nodiscard]] std::optional<double> number(std::size_t column, const Bounds& bounds);
    [[nodiscard]] std::optional<Entered>
    measure(std::size_t column, Unit unit, const Bounds& bounds);
    [[nodiscard]] std::optional<Date> date(std::size_t column);
    [[nodiscard]] BottomWord bottom(std::size_t column);
    /// From the file's own columns of place, latitude and longitude or metres east and north. None
    /// where both cells are empty; one empty alone is a fault.
    [[nodiscard]] std::optional<Place>
    place(std::size_t latitudeOrEast, std::size_t longitudeOrNorth);

    void require(std::size_t column, std::string_view expected);
    void bad(std::size_t column, std::string expected);

private:
    [[nodiscard]] std::string_view raw(std::size_t column) const;

    const CsvHeader& header_;
    const CsvRecord& record_;
    FaultList& faults_;
    bool good_ = true;
};

/// Calls `use` with each row that has the header's number of cells and says anything; notes the
/// others. Fails when the device fails, or when stopped.
[[nodiscard]] Result<void> forEachCsvRow(
    CsvReader& reader,
    const CsvHeader& header,
    FaultList& faults,
    const Progress& progress,
    const std::function<void(CsvRow&)>& use);

} // namespace bedlore
