// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/formats.hpp"

#include <cstddef>
#include <string>
#include <vector>

// What the lines of a file would become, to be looked at before anything is written.

namespace bedlore {

/// One line of a file. `cells` has one text for each column of its file.
struct PreviewRow {
    int line = 0;
    std::vector<std::string> cells;
    bool isUnclear = false; ///< kept as typed, but asked about
    bool isBad = false;     ///< it cannot be used; it is among the bad rows too
    friend bool operator==(const PreviewRow&, const PreviewRow&) = default;
};

/// The first lines of a file in words. Lines that could not even be read are among the bad rows
/// alone.
struct FilePreview {
    std::string name;
    ImportKind kind = ImportKind::Page;
    std::vector<std::string> columns;
    std::vector<PreviewRow> rows;
    std::size_t rowCount = 0; ///< of all that could be read: `rows` may stop before
    std::string again;        ///< why it would be in the book twice; empty where it would not
    friend bool operator==(const FilePreview&, const FilePreview&) = default;
};

} // namespace bedlore
