// SPDX-License-Identifier: MIT
#include "core/io/shoreline_file.hpp"

#include <string>
#include <unordered_map>
#include <utility>
#include <variant>

namespace bedlore {

void addOutline(ShoreOutline outline, ShoreOutlines& to, FaultList& faults) {
    std::vector<GeographicPoint> kept;
    kept.reserve(outline.vertices.size());
    for (const GeographicPoint& vertex : outline.vertices) {
        if (kept.empty() || kept.back() != vertex) {
            kept.push_back(vertex);
        }
    }
    while (kept.size() > 1 && kept.back() == kept.front()) {
        kept.pop_back();
    }
    if (kept.size() < 3) {
        faults.add(
            outline.line,
            "",
            "a shoreline of " + std::to_string(kept.size()) + " places",
            "at least three different places");
        return;
    }
    outline.vertices = std::move(kept);
    to.parts.push_back(std::move(outline));
}

Result<ShoreOutlines> readShorelineCsv(
    CsvReader& reader, const CsvHeader& header, FaultList& faults, const Progress& progress) {
    using namespace shoreline_csv;
    std::vector<ShoreOutline> outlines;
    std::unordered_map<std::string, std::size_t> byPart;
    const auto read = forEachCsvRow(reader, header, faults, progress, [&](CsvRow& row) {
        const std::string name = row.name(part);
        const auto place = row.place(lat, lon);
        if (!place && row.isGood()) {
            row.bad(lat, "a latitude, -90 to 90 degrees");
        }
        if (!row.isGood()) {
            return;
        }
        const auto [at, isNew] = byPart.try_emplace(name, outlines.size());
        if (isNew) {
            outlines.push_back({.line = row.line()});
        }
        outlines[at->second].vertices.push_back(std::get<GeographicPoint>(*place));
    });
    if (!read) {
        return fail(read.error());
    }
    ShoreOutlines result;
    for (ShoreOutline& outline : outlines) {
        addOutline(std::move(outline), result, faults);
    }
    return result;
}

} // namespace bedlore
