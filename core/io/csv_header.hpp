// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/csv_reader.hpp"
#include "core/io/formats.hpp"
#include "core/io/import_faults.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Which table a CSV file is, and where its columns stand.

namespace bedlore {

/// Columns of each kind by their place in `csvColumns`, called as in a file's first line: with a
/// capital letter they would be called as the records are.
// NOLINTBEGIN(readability-identifier-naming)
namespace swims_csv {
enum Column : std::size_t { swim, lat, lon, east, north, tipHeight };
}
namespace reels_csv {
enum Column : std::size_t { reel, turns, distance };
}
namespace readings_csv {
enum Column : std::size_t {
    swim,
    date,
    cast,
    bearing,
    north,
    distance,
    distanceUnit,
    depth,
    depthUnit,
    bottom,
    note,
    distanceTo,
    reel,
    aim,
    stickGap,
    level,
    drop,
    pull,
    onLead,
    sure,
    outcome
};
}
namespace fixes_csv {
enum Column : std::size_t { lat, lon, east, north, depth, bottom, sigma, date, level };
}
namespace shoreline_csv {
enum Column : std::size_t { part, lat, lon };
}
// NOLINTEND(readability-identifier-naming)

/// The names of a kind's columns, as in a file's first line.
[[nodiscard]] std::span<const std::string_view> csvColumns(ImportKind kind);

/// What the names of a shared map's columns begin with.
inline constexpr std::string_view mapColumn = "map_";

struct CsvHeader {
    ImportKind kind = ImportKind::Readings;
    char separator = ',';
    /// Whether places are in latitude and longitude (else metres east and north).
    bool geographic = true;
    std::size_t width = 0;                        ///< number of cells
    std::vector<std::optional<std::size_t>> cell; ///< of each column of the kind
    std::vector<std::string> unknown;             ///< names that mean nothing here

    [[nodiscard]] bool has(std::size_t column) const { return cell[column].has_value(); }
};

/// The names of a header's columns, letter case and blanks around them aside.
[[nodiscard]] std::vector<std::string> columnNames(const CsvRecord& header);

/// Whether these are the columns of swims, reels, readings, fixes or a shoreline.
[[nodiscard]] bool isSimpleTable(const std::vector<std::string>& names);

/// Whether these are the columns of a table of a shared map (`writeMapTables`), which is no record
/// of anything.
[[nodiscard]] bool isTableOfAMap(const std::vector<std::string>& names);

/// The sentence that says which columns of `file` mean nothing.
[[nodiscard]] std::string
unknownColumns(const std::string& file, const std::vector<std::string>& names);

/// Tells the kind and the separator from the first row of `reader`, which must just have been read.
/// None for a table of no known kind. What makes the whole file unusable (a column missing or
/// twice) goes to `faults`.
[[nodiscard]] std::optional<CsvHeader> readCsvHeader(CsvReader& reader, FaultList& faults);

} // namespace bedlore
