// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

// Everything that can be read into a book: the only list of it.

namespace bedlore {

enum class ImportKind : std::uint8_t {
    Page,
    Swims,
    Reels,
    Readings,
    Fixes,
    Shoreline,
    BookTable,      ///< a whole book's records of one type
    BookFixRows,    ///< the rows of its sets of fixes
    BookLongValues, ///< what is too long for a cell
    GeoJson,
    Kml,
    Gpx,
};

/// What the ending of a file's name promises; a table's kind is told by its header.
enum class FileFamily : std::uint8_t { Page, Csv, GeoJson, Kml, Gpx };

struct ImportFormat {
    ImportKind kind;
    FileFamily family;
    std::string_view words;     ///< "readings"
    std::string_view ending;    ///< ".csv", lower case
    std::uint64_t largestBytes; ///< a larger file is refused
    std::size_t mostRows;       ///< as is a longer one: lines of a page, rows of a table, vertices
};

[[nodiscard]] const ImportFormat& importFormat(ImportKind kind);

/// By the ending of `fileName`, letter case aside; none for what cannot be read.
[[nodiscard]] std::optional<FileFamily> familyOf(std::string_view fileName);

/// The endings of all that can be read, each once: ".txt", ".csv", …
[[nodiscard]] std::span<const std::string_view> importEndings();

} // namespace bedlore
