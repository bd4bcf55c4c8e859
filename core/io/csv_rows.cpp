// SPDX-License-Identifier: MIT
#include "core/io/csv_rows.hpp"

#include "core/io/import_text.hpp"
#include "core/io/iso_date.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace bedlore {

namespace {

constexpr std::size_t longestName = 200;
constexpr std::size_t longestNote = 10'000;
constexpr int rowsBetweenReports = 1024;

/// Whole text or nothing. A table with semicolons may have decimal commas, as spreadsheets of many
/// countries write it; in one with commas a comma in a number could as well part thousands.
std::optional<double> decimalIn(std::string_view text, char separator) {
    std::optional<double> number;
    if (separator == ';' && std::count(text.begin(), text.end(), ',') == 1 &&
        text.find('.') == std::string_view::npos) {
        std::string pointed(text);
        pointed[text.find(',')] = '.';
        number = readDecimal(pointed);
    } else {
        number = readDecimal(text);
    }
    return number && std::isfinite(*number) ? number : std::nullopt;
}

} // namespace

std::optional<Date> dateIn(std::string_view text) {
    const auto date = isoDateIn(text);
    const std::chrono::year first{1000}; // before that it is a slip
    return date && date->year() >= first ? date : std::nullopt;
}

std::optional<BottomWord> bottomWord(std::string_view text) {
    const std::string word = lowerCase(text);
    for (const auto& term : substrateTerms()) {
        if (word == term.word || word == term.code) {
            return BottomWord{term.kind, std::nullopt};
        }
    }
    for (const auto& term : coverTerms()) {
        if (word == term.word || word == term.code) {
            return BottomWord{std::nullopt, term.kind};
        }
    }
    if (word == "leaf litter") {
        return BottomWord{std::nullopt, Cover::Leaves};
    }
    return std::nullopt;
}

std::string_view CsvRow::raw(std::size_t column) const {
    const auto& cell = header_.cell[column];
    return cell ? record_.cells[*cell] : std::string_view();
}

std::string_view CsvRow::text(std::size_t column) const {
    return trimmed(raw(column));
}

std::string CsvRow::name(std::size_t column) {
    const std::string_view found = text(column);
    if (found.size() > longestName || hasControlCharacters(found)) {
        bad(column, "a short text on one line");
        return {};
    }
    return std::string(found);
}

std::string CsvRow::note(std::size_t column) {
    const std::string_view found = raw(column);
    if (found.size() > longestNote) {
        bad(column, "at most 10,000 characters");
        return {};
    }
    return trimmed(found).empty() ? std::string() : std::string(found);
}

std::optional<double> CsvRow::number(std::size_t column, const Bounds& bounds) {
    const std::string_view found = text(column);
    if (found.empty()) {
        return std::nullopt;
    }
    const auto number = decimalIn(found, header_.separator);
    if (!number || *number > bounds.most || *number < bounds.least ||
        (*number <= bounds.least && !bounds.leastItself)) {
        bad(column, std::string(bounds.words));
        return std::nullopt;
    }
    return number;
}

std::optional<Entered> CsvRow::measure(std::size_t column, Unit unit, const Bounds& bounds) {
    const auto value = number(column, bounds);
    if (!value) {
        return std::nullopt;
    }
    return Entered{.number = *value, .unit = unit, .text = std::string(text(column))};
}

std::optional<Date> CsvRow::date(std::size_t column) {
    const std::string_view found = text(column);
    if (found.empty()) {
        return std::nullopt;
    }
    const auto date = dateIn(found);
    if (!date) {
        bad(column, "a day of the calendar as YYYY-MM-DD");
    }
    return date;
}

BottomWord CsvRow::bottom(std::size_t column) {
    const std::string_view found = text(column);
    if (found.empty()) {
        return {};
    }
    const auto word = bottomWord(found);
    if (!word) {
        bad(column, "a word for the bottom such as gravel, silt or weed, its code, or nothing");
    }
    return word.value_or(BottomWord{});
}

std::optional<Place> CsvRow::place(std::size_t latitudeOrEast, std::size_t longitudeOrNorth) {
    constexpr Bounds latitudes{-90.0, 90.0, "a latitude, -90 to 90 degrees"};
    constexpr Bounds longitudes{-180.0, 180.0, "a longitude, -180 to 180 degrees"};
    constexpr Bounds metres{-1e8, 1e8, "a number of metres"};
    const bool noFirst = text(latitudeOrEast).empty();
    const bool noSecond = text(longitudeOrNorth).empty();
    if (noFirst && noSecond) {
        return std::nullopt;
    }
    if (noFirst || noSecond) {
        bad(noFirst ? latitudeOrEast : longitudeOrNorth, "a number, as there is in the other");
        return std::nullopt;
    }
    const auto first = number(latitudeOrEast, header_.geographic ? latitudes : metres);
    const auto second = number(longitudeOrNorth, header_.geographic ? longitudes : metres);
    if (!first || !second) {
        return std::nullopt;
    }
    if (header_.geographic) {
        return GeographicPoint{.latitude = *first, .longitude = *second};
    }
    return Point{*first, *second};
}

void CsvRow::require(std::size_t column, std::string_view expected) {
    if (text(column).empty()) {
        bad(column, std::string(expected));
    }
}

void CsvRow::bad(std::size_t column, std::string expected) {
    good_ = false;
    faults_.add(line(), csvColumns(header_.kind)[column], text(column), std::move(expected));
}

Result<void> forEachCsvRow(
    CsvReader& reader,
    const CsvHeader& header,
    FaultList& faults,
    const Progress& progress,
    const std::function<void(CsvRow&)>& use) {
    const std::size_t mostRows = importFormat(header.kind).mostRows;
    std::size_t rows = 0;
    for (int count = 1;; count = count % rowsBetweenReports + 1) {
        const auto step = reader.next(progress);
        if (!step) {
            return fail(step.error());
        }
        const CsvRecord& record = reader.record();
        if (*step == CsvStep::End) {
            return {};
        }
        if (*step == CsvStep::Stop) {
            faults.addForFile(record.line, "", reader.fault().found, reader.fault().expected);
            return {};
        }
        if (const auto fault = reader.faultOfLine(*step, header.width)) {
            faults.add(record.line, "", fault->found, fault->expected);
        } else if (!record.isBlank() && ++rows > mostRows) {
            const std::string most = std::to_string(mostRows);
            faults.addForFile(record.line, "", "more than " + most + " rows", "at most " + most);
            return {};
        } else if (!record.isBlank()) {
            CsvRow row(header, record, faults);
            use(row);
        }
        if (count == rowsBetweenReports && !reader.report(progress)) {
            return fail(cancelledError());
        }
    }
}

} // namespace bedlore
