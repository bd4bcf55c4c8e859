// SPDX-License-Identifier: MIT
#include "core/io/import_text.hpp"
#include "core/io/shoreline_file.hpp"
#include "tests/fuzz/books.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/promises.hpp"
#include "tests/fuzz/scratch.hpp"

#include <cmath>
#include <string>

// A shoreline of any bytes at all: as GeoJSON, KML and GPX.

namespace bedlore::fuzz {

namespace {

void mustBeOnEarth(const Book& book) {
    for (const Water& water : book.all<Water>()) {
        for (const ShorePart& part : water.shore) {
            must(part.vertices.size() >= 3, "a shoreline has an inside");
            for (const Place& vertex : part.vertices) {
                const auto* place = std::get_if<GeographicPoint>(&vertex);
                must(
                    place != nullptr && std::abs(place->latitude) <= 90.0 &&
                        std::abs(place->longitude) <= 180.0,
                    "a shoreline lies on the earth");
            }
        }
    }
}

/// What a file of this kind must never hold, wherever it stands.
bool hasEntities(std::string_view bytes) {
    const std::string lower = lowerCase(bytes);
    return lower.find("<!doctype") != std::string::npos ||
           lower.find("<!entity") != std::string::npos;
}

void check(const std::string& name, std::string_view bytes) {
    const MadeBook& made = bookToImportInto();
    const auto plan = mustImport(made.book, made.nextId, scratch().put(name, bytes));
    if (!plan) {
        return;
    }
    must(name == "shore.geojson" || !hasEntities(bytes), "XML has no entities of its own");
    must(plan->counts.shorelines > 0, "a shoreline that is taken has a line");
    mustBeOnEarth(mustApply(made.book, plan->edits));
}

} // namespace

} // namespace bedlore::fuzz

// The name is libFuzzer's. XML by what it says first, so that an input is read once alone.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes = bedlore::fuzz::textOf(data, size);
    const bool isXml = bytes.find('<') != std::string_view::npos;
    const bool isGpx = bytes.find("<gpx") != std::string_view::npos;
    bedlore::fuzz::check(!isXml ? "shore.geojson" : isGpx ? "shore.gpx" : "shore.kml", bytes);
    return 0;
}
