// SPDX-License-Identifier: MIT
#include "core/io/formats.hpp"

#include "core/base/contract.hpp"
#include "core/io/import_text.hpp"

#include <array>

namespace bedlore {

namespace {

constexpr std::uint64_t megabyte = std::uint64_t{1024} * 1024;

// A lifetime's readings are 15,000 in about 1 MB, a surveyed shoreline is less; fixes alone grow
// without end. What is read into a tree (GeoJSON, KML, GPX) takes some thirty times its size.
constexpr std::array<ImportFormat, 13> formats{{
    {ImportKind::Page, FileFamily::Page, "a notebook page", ".txt", 4 * megabyte, 20'000},
    {ImportKind::Swims, FileFamily::Csv, "swims", ".csv", 16 * megabyte, 20'000},
    {ImportKind::Reels, FileFamily::Csv, "reels", ".csv", 16 * megabyte, 20'000},
    {ImportKind::Readings, FileFamily::Csv, "readings", ".csv", 64 * megabyte, 100'000},
    {ImportKind::Fixes, FileFamily::Csv, "fixes", ".csv", 2047 * megabyte, 20'000'000},
    {ImportKind::Shoreline, FileFamily::Csv, "a shoreline", ".csv", 64 * megabyte, 1'000'000},
    {ImportKind::BookTable, FileFamily::Csv, "a book's records", ".csv", 256 * megabyte, 1'000'000},
    {ImportKind::BookFixRows,
     FileFamily::Csv,
     "a book's fixes",
     ".csv",
     2047 * megabyte,
     20'000'000},
    {ImportKind::BookLongValues,
     FileFamily::Csv,
     "a book's long values",
     ".csv",
     1024 * megabyte,
     1'000'000},
    {ImportKind::GeoJson, FileFamily::GeoJson, "a shoreline", ".geojson", 8 * megabyte, 1'000'000},
    {ImportKind::GeoJson, FileFamily::GeoJson, "a shoreline", ".json", 8 * megabyte, 1'000'000},
    {ImportKind::Kml, FileFamily::Kml, "a shoreline", ".kml", 16 * megabyte, 1'000'000},
    {ImportKind::Gpx, FileFamily::Gpx, "a shoreline", ".gpx", 16 * megabyte, 1'000'000},
}};

constexpr std::array<std::string_view, 6> endings{
    ".txt", ".csv", ".geojson", ".json", ".kml", ".gpx"};

} // namespace

const ImportFormat& importFormat(ImportKind kind) {
    for (const ImportFormat& format : formats) {
        if (format.kind == kind) {
            return format;
        }
    }
    BEDLORE_EXPECTS(false && "every kind has a format");
    return formats.front();
}

std::optional<FileFamily> familyOf(std::string_view fileName) {
    const std::string name = lowerCase(fileName);
    for (const ImportFormat& format : formats) {
        if (name.ends_with(format.ending)) {
            return format.family;
        }
    }
    return std::nullopt;
}

std::span<const std::string_view> importEndings() {
    return endings;
}

} // namespace bedlore
