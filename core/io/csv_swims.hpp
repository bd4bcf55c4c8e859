// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/csv_rows.hpp"

#include <optional>
#include <string>
#include <vector>

// `swims.csv` and `reels.csv`, row by row as they stand.

namespace bedlore {

struct SwimRow {
    int line = 0;
    std::string name = {};
    Place place = {};
    std::optional<Entered> tipHeight = {};
};

struct SwimRows {
    bool geographic = true;
    std::vector<SwimRow> rows = {};
};

struct ReelRow {
    int line = 0;
    std::string name = {};
    double turns = 0.0;
    Entered distance = {};
};

struct ReelRows {
    std::vector<ReelRow> rows;
};

[[nodiscard]] Result<SwimRows> readSwimRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress);

[[nodiscard]] Result<ReelRows> readReelRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress);

} // namespace bedlore
