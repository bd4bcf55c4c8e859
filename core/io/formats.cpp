// SPDX-License-Identifier: MIT
#include "core/io/formats.hpp"

#include "core/base/contract.hpp"
#include "core/io/import_text.hpp"

#include <array>

namespace bedlore {

namespace {

constexpr std::uint64_t megabyte = 1024 * 1024;

// A lifetime's readings are about 2 MB, a surveyed shoreline less; fixes alone grow without end.
// Whatever is read into a tree (GeoJSON, KML, GPX) takes some thirty times its size in memory.
constexpr std::array<ImportFormat, 10> formats{{
    {ImportKind::Page, FileFamily::Page, "a notebook page", ".txt", 4 * megabyte},
    {ImportKind::Swims, FileFamily::Csv, "swims", ".csv", 16 * megabyte},
    {ImportKind::Reels, FileFamily::Csv, "reels", ".csv", 16 * megabyte},
    {ImportKind::Readings, FileFamily::Csv, "readings", ".csv", 64 * megabyte},
    {ImportKind::Fixes, FileFamily::Csv, "fixes", ".csv", 2047 * megabyte},
    {ImportKind::Shoreline, FileFamily::Csv, "a shoreline", ".csv", 64 * megabyte},
    {ImportKind::GeoJson, FileFamily::GeoJson, "a shoreline", ".geojson", 8 * megabyte},
    {ImportKind::GeoJson, FileFamily::GeoJson, "a shoreline", ".json", 8 * megabyte},
    {ImportKind::Kml, FileFamily::Kml, "a shoreline", ".kml", 16 * megabyte},
    {ImportKind::Gpx, FileFamily::Gpx, "a shoreline", ".gpx", 16 * megabyte},
}};

constexpr std::array<std::string_view, 6> endings{
    ".txt", ".csv", ".geojson", ".json", ".kml", ".gpx"};

} // namespace

std::span<const ImportFormat> importFormats() {
    return formats;
}

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
