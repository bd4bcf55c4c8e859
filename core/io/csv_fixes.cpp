// SPDX-License-Identifier: MIT
#include "core/io/csv_fixes.hpp"

#include <algorithm>
#include <chrono>
#include <limits>

namespace bedlore {

namespace {

using namespace fixes_csv;

constexpr float noNumber = std::numeric_limits<float>::quiet_NaN();
constexpr std::int32_t noDay = std::numeric_limits<std::int32_t>::min();
constexpr std::uint8_t noKind = 255;

struct Fix {
    double x = 0.0;
    double y = 0.0;
    double depth = 0.0;
    float sigma = noNumber;
    float level = noNumber;
    std::int32_t day = noDay;
    std::uint8_t substrate = noKind;
    std::uint8_t cover = noKind;
};

template <class Kind>
std::uint8_t stored(const std::optional<Kind>& kind) {
    return kind ? static_cast<std::uint8_t>(*kind) : noKind;
}

float stored(const std::optional<double>& number) {
    return number ? static_cast<float>(*number) : noNumber;
}

void takePlace(CsvRow& row, bool geographic, Fix& fix) {
    const std::size_t first = geographic ? lat : east;
    const std::size_t second = geographic ? lon : north;
    const auto place = row.place(first, second);
    if (!place) {
        if (row.isGood()) {
            row.bad(first, "a number");
        }
        return;
    }
    if (const auto* globe = std::get_if<GeographicPoint>(&*place)) {
        fix.x = globe->longitude;
        fix.y = globe->latitude;
    } else if (const auto* point = std::get_if<Point>(&*place)) {
        fix.x = point->east;
        fix.y = point->north;
    }
}

Fix fixIn(CsvRow& row, bool geographic) {
    // Deeper than any lake; it also stops the "no data" numbers of other programs.
    constexpr Bounds depths{-2000.0, 2000.0, "a depth in metres, -2000 to 2000"};
    constexpr Bounds sigmas{0.0, 1000.0, "an error in metres, 0 to 1000, or nothing"};
    constexpr Bounds levels{-1000.0, 10'000.0, "the water's level in metres, or nothing"};
    Fix fix;
    takePlace(row, geographic, fix);
    row.require(depth, "a depth in metres");
    fix.depth = row.number(depth, depths).value_or(0.0);
    fix.sigma = stored(row.number(sigma, sigmas));
    fix.level = stored(row.number(level, levels));
    if (const auto day = row.date(date)) {
        fix.day = static_cast<std::int32_t>(std::chrono::sys_days(*day).time_since_epoch().count());
    }
    const BottomWord word = row.bottom(bottom);
    fix.substrate = stored(word.substrate);
    fix.cover = stored(word.cover);
    return fix;
}

void append(const Fix& fix, const CsvHeader& header, FixColumns& columns) {
    columns.x.push_back(fix.x);
    columns.y.push_back(fix.y);
    columns.depth.push_back(fix.depth);
    if (header.has(sigma)) {
        columns.sigma.push_back(fix.sigma);
    }
    if (header.has(level)) {
        columns.level.push_back(fix.level);
    }
    if (header.has(date)) {
        columns.day.push_back(fix.day);
    }
    if (header.has(bottom)) {
        columns.substrate.push_back(fix.substrate);
        columns.cover.push_back(fix.cover);
    }
}

/// A column that is empty in every row is as good as none.
template <class T, class IsEmpty>
void dropIfEmpty(std::vector<T>& column, IsEmpty isEmpty) {
    if (std::all_of(column.begin(), column.end(), isEmpty)) {
        column.clear();
        column.shrink_to_fit();
    }
}

void dropEmptyColumns(FixColumns& columns) {
    const auto noValue = [](float value) { return value != value; };
    const auto noWord = [](std::uint8_t kind) { return kind == noKind; };
    dropIfEmpty(columns.sigma, noValue);
    dropIfEmpty(columns.level, noValue);
    dropIfEmpty(columns.day, [](std::int32_t day) { return day == noDay; });
    dropIfEmpty(columns.substrate, noWord);
    dropIfEmpty(columns.cover, noWord);
}

} // namespace

Result<FixRows> readFixRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress) {
    FixRows result{.frame = header.geographic ? FixFrame::Geographic : FixFrame::Plane};
    const auto read = forEachCsvRow(reader, header, faults, progress, [&](CsvRow& row) {
        const Fix fix = fixIn(row, header.geographic);
        if (!row.isGood()) {
            return;
        }
        append(fix, header, result.columns);
        result.lines.push_back(row.line());
    });
    if (!read) {
        return fail(read.error());
    }
    dropEmptyColumns(result.columns);
    return result;
}

} // namespace bedlore
