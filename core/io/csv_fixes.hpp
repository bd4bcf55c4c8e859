// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/fix_set.hpp"
#include "core/io/csv_rows.hpp"

#include <vector>

// `fixes.csv` and the CSV shoreline.

namespace bedlore {

/// Columns grow as the file is read; nothing else of it is kept but each row's line.
struct FixRows {
    FixFrame frame = FixFrame::Geographic;
    FixColumns columns = {};
    std::vector<int> lines = {};
};

[[nodiscard]] Result<FixRows> readFixRows(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress);

} // namespace bedlore
