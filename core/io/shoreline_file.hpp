// SPDX-License-Identifier: MIT
#pragma once

#include "core/geodesy/geographic_point.hpp"
#include "core/io/csv_rows.hpp"
#include "core/io/formats.hpp"

#include <string>
#include <string_view>
#include <vector>

// Shorelines of others: CSV, GeoJSON, KML, GPX.

namespace bedlore {

/// One closed line; the last vertex does not repeat the first. `line` is where it begins in the
/// file, 1 where that cannot be told.
struct ShoreOutline {
    int line = 1;
    std::vector<GeographicPoint> vertices = {};
};

struct ShoreOutlines {
    std::vector<ShoreOutline> parts;
    std::vector<std::string> notices;
};

/// Rows of one `part` are its vertices in the order of the file.
[[nodiscard]] Result<ShoreOutlines> readShorelineCsv(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress);

/// Lines and areas of RFC 7946; points are left out with a notice. What cannot be used goes to
/// `faults`.
[[nodiscard]] ShoreOutlines readShorelineGeoJson(std::string_view text, FaultList& faults);

/// Lines and areas of KML 2.2, tracks and routes of GPX 1.1 (`kind` says which). A document type or
/// an entity of its own is refused before anything else looks at the text.
[[nodiscard]] ShoreOutlines
readShorelineXml(const std::string& text, ImportKind kind, FaultList& faults);

/// Drops repeated vertices, the closing one among them; notes a line of fewer than three.
void addOutline(ShoreOutline outline, ShoreOutlines& to, FaultList& faults);

} // namespace bedlore
