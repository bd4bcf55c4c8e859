// SPDX-License-Identifier: MIT
#include "core/io/csv_readings.hpp"

#include "core/io/import_text.hpp"

#include <array>
#include <span>
#include <utility>

namespace bedlore {

namespace {

using namespace readings_csv;

// No line is longer, whatever its unit; in wraps and turns the length itself is looked at later.
constexpr double farthestMetres = 400.0;

std::optional<North> northIn(std::string_view text) {
    for (const North north : {North::True, North::Magnetic, North::Grid}) {
        if (lowerCase(text) == northWord(north)) {
            return north;
        }
    }
    return std::nullopt;
}

template <class Kind>
std::optional<Kind> kindIn(std::span<const Term<Kind>> terms, std::string_view text) {
    // A code may differ from another by its letter's case alone ("D" and "d").
    for (const auto& term : terms) {
        if (!term.code.empty() && text == term.code) {
            return term.kind;
        }
    }
    for (const auto& term : terms) {
        if (lowerCase(text) == term.word) {
            return term.kind;
        }
    }
    return std::nullopt;
}

template <class Kind>
std::string wordsOf(std::span<const Term<Kind>> terms) {
    std::string words;
    for (const auto& term : terms) {
        words += (words.empty() ? "" : ", ") + std::string(term.word);
    }
    return words + " or nothing";
}

template <class Kind>
std::optional<Kind> kindAt(CsvRow& row, std::size_t column, std::span<const Term<Kind>> terms) {
    const std::string_view text = row.text(column);
    if (text.empty()) {
        return std::nullopt;
    }
    const auto kind = kindIn(terms, text);
    if (!kind) {
        row.bad(column, wordsOf(terms));
    }
    return kind;
}

std::optional<Outcome> outcomeAt(CsvRow& row) {
    if (lowerCase(row.text(outcome)) == "lead lost") {
        return Outcome::LeadLost;
    }
    return kindAt(row, outcome, outcomeTerms());
}

/// Several words may stand in the cell, parted by blanks, commas, semicolons, slashes or plus
/// signs.
std::vector<OnLead> onLeadAt(CsvRow& row) {
    constexpr std::string_view between = " ,;/+";
    std::vector<OnLead> found;
    std::string_view rest = row.text(onLead);
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find_first_of(between), rest.size());
        const std::string_view word = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        if (word.empty()) {
            continue;
        }
        const auto kind = kindIn(onLeadTerms(), word);
        if (!kind) {
            row.bad(onLead, wordsOf(onLeadTerms()));
            return {};
        }
        found.push_back(*kind);
    }
    return found;
}

std::optional<Unit>
unitAt(CsvRow& row, std::size_t column, std::span<const Unit> allowed, std::string_view expected) {
    const std::string text = lowerCase(row.text(column));
    for (const Unit unit : allowed) {
        if (text == unitCode(unit)) {
            return unit;
        }
    }
    row.bad(column, std::string(expected));
    return std::nullopt;
}

void takeDistance(CsvRow& row, Reading& reading) {
    constexpr std::array units{Unit::Metre, Unit::Yard, Unit::Foot, Unit::Wrap, Unit::Turn};
    constexpr Bounds out{0.0, 1e6, "a number above 0", false};
    constexpr Bounds nearer{0.0, 1e6, "a number, 0 or more"};
    row.require(distance, "a number above 0");
    const auto unit = unitAt(row, distanceUnit, units, "m, yd, ft, wrap or turn");
    const auto from = row.measure(distance, unit.value_or(Unit::Metre), out);
    reading.from = from.value_or(Entered{});
    reading.to = row.measure(distanceTo, unit.value_or(Unit::Metre), nearer);
    if (from && reading.to && reading.to->number >= from->number) {
        row.bad(distanceTo, "a number less than the distance, " + from->text);
    }
}

void takeDepth(CsvRow& row, Reading& reading) {
    constexpr std::array units{Unit::Metre, Unit::Foot};
    constexpr double feet = farthestMetres / 0.3048;
    constexpr Bounds inMetres{0.0, farthestMetres, "a depth, 0 to 400 m, or nothing"};
    constexpr Bounds inFeet{0.0, feet, "a depth, 0 to 1312 ft, or nothing"};
    if (row.text(depth).empty() && row.text(depthUnit).empty()) {
        return;
    }
    const auto unit = unitAt(row, depthUnit, units, "m or ft");
    const bool isMetres = unit.value_or(Unit::Metre) == Unit::Metre;
    const auto value = row.measure(depth, unit.value_or(Unit::Metre), isMetres ? inMetres : inFeet);
    if (value) {
        reading.depth = DepthEntry{.value = *value, .to = {}, .method = DepthMethod::Measured};
    }
}

void takeBearing(CsvRow& row, ReadingRow& result) {
    constexpr Bounds degrees{-360.0, 720.0, "degrees, -360 to 720, or nothing"};
    result.bearing = row.measure(bearing, Unit::Degree, degrees);
    const std::string_view text = row.text(north);
    result.north = northIn(text);
    if (!result.north && (!text.empty() || !row.text(bearing).empty())) {
        row.bad(north, "true, magnetic or grid");
    }
}

void takeFeel(CsvRow& row, Reading& reading) {
    const BottomWord word = row.bottom(bottom);
    reading.substrate = word.substrate;
    reading.cover = word.cover;
    reading.drop = kindAt(row, drop, dropTerms());
    reading.pull = kindAt(row, pull, pullTerms());
    reading.onLead = onLeadAt(row);
    reading.outcome = outcomeAt(row);
    reading.note = row.note(note);
    const std::string_view sureness = row.text(sure);
    if (sureness == "1" || sureness == "2" || sureness == "3") {
        reading.sureness = sureness.front() - '0';
    } else if (!sureness.empty()) {
        row.bad(sure, "1, 2, 3 or nothing");
    }
}

void takeVisit(CsvRow& row, ReadingRow& result) {
    constexpr Bounds gaps{0.0, 50.0, "feet between the sticks, above 0 and up to 50", false};
    constexpr Bounds levels{-1000.0, 10'000.0, "the water's level in metres"};
    row.require(swim, "the swim's name");
    row.require(date, "a day of the calendar as YYYY-MM-DD");
    result.swim = row.name(swim);
    result.date = row.date(date).value_or(Date{});
    result.stickGap = row.measure(stickGap, Unit::Foot, gaps);
    result.level = row.measure(level, Unit::Metre, levels);
}

ReadingRow readingRow(CsvRow& row) {
    ReadingRow result{.line = row.line()};
    takeVisit(row, result);
    result.cast = row.name(cast);
    result.reel = row.name(reel);
    result.aim = row.name(aim);
    takeBearing(row, result);
    takeDistance(row, result.reading);
    takeDepth(row, result.reading);
    takeFeel(row, result.reading);
    return result;
}

} // namespace

Result<ReadingRows> readReadingRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress) {
    ReadingRows result;
    const auto read = forEachCsvRow(reader, header, faults, progress, [&](CsvRow& row) {
        ReadingRow reading = readingRow(row);
        if (row.isGood()) {
            result.rows.push_back(std::move(reading));
        }
    });
    if (!read) {
        return fail(read.error());
    }
    return result;
}

std::string_view northWord(North north) {
    switch (north) {
    case North::True:
        return "true";
    case North::Magnetic:
        return "magnetic";
    case North::Grid:
        return "grid";
    }
    return {};
}

} // namespace bedlore
