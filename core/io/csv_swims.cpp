// SPDX-License-Identifier: MIT
#include "core/io/csv_swims.hpp"

#include "core/units/format.hpp"

#include <utility>

namespace bedlore {

namespace {

SwimRow swimRow(CsvRow& row, bool geographic) {
    using namespace swims_csv;
    // A rod tip higher than a house above the water is a slip of the pen.
    constexpr Bounds heights{0.0, 50.0, "a height in metres, 0 to 50"};
    SwimRow result{.line = row.line()};
    row.require(swim, "the swim's name");
    result.name = row.name(swim);
    if (const auto place = row.place(geographic ? lat : east, geographic ? lon : north)) {
        result.place = *place;
    }
    result.tipHeight = row.measure(tipHeight, Unit::Metre, heights);
    return result;
}

/// "0,0": no turns, no line. It says nothing about a reel, but people write it down.
bool isNoTurnsAtAll(const CsvRow& row) {
    return readDecimal(row.text(reels_csv::turns)) == 0.0 &&
           readDecimal(row.text(reels_csv::distance)) == 0.0;
}

ReelRow reelRow(CsvRow& row) {
    using namespace reels_csv;
    constexpr Bounds counts{0.0, 10'000.0, "a number of turns above 0", false};
    constexpr Bounds lengths{0.0, 400.0, "a length above 0 and up to 400 metres", false};
    ReelRow result{.line = row.line()};
    row.require(reel, "the reel's name");
    row.require(turns, "a number of turns above 0");
    row.require(distance, "a length above 0 and up to 400 metres");
    result.name = row.name(reel);
    result.turns = row.number(turns, counts).value_or(0.0);
    result.distance = row.measure(distance, Unit::Metre, lengths).value_or(Entered{});
    return result;
}

} // namespace

Result<SwimRows> readSwimRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress) {
    SwimRows result{.geographic = header.geographic};
    const auto read = forEachCsvRow(reader, header, faults, progress, [&](CsvRow& row) {
        SwimRow swim = swimRow(row, header.geographic);
        if (row.isGood()) {
            result.rows.push_back(std::move(swim));
        }
    });
    if (!read) {
        return fail(read.error());
    }
    return result;
}

Result<ReelRows> readReelRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress) {
    ReelRows result;
    const auto read = forEachCsvRow(reader, header, faults, progress, [&](CsvRow& row) {
        if (isNoTurnsAtAll(row)) {
            return;
        }
        ReelRow reel = reelRow(row);
        if (row.isGood()) {
            result.rows.push_back(std::move(reel));
        }
    });
    if (!read) {
        return fail(read.error());
    }
    return result;
}

} // namespace bedlore
