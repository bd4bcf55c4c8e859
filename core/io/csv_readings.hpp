// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/reading.hpp"
#include "core/io/csv_rows.hpp"

#include <optional>
#include <string>
#include <vector>

// `readings.csv`, row by row as it stands: what a row says alone, before its visit and cast.

namespace bedlore {

/// `reading` has no id, cast, order or source yet. An empty `cast` is a cast of its own.
struct ReadingRow {
    int line = 0;
    std::string swim = {};
    Date date{};
    std::string cast = {};
    std::optional<Entered> bearing = {}; ///< degrees as typed
    std::optional<North> north = {};
    std::string reel = {};
    std::string aim = {};
    std::optional<Entered> stickGap = {};
    std::optional<Entered> level = {};
    Reading reading = {};
};

struct ReadingRows {
    std::vector<ReadingRow> rows;
};

/// Rows with a fault are noted and left out.
[[nodiscard]] Result<ReadingRows> readReadingRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress);

/// "true", "magnetic" or "grid".
[[nodiscard]] std::string_view northWord(North north);

} // namespace bedlore
