// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"
#include "core/io/import_preview.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

// Files into edits: pages, swims, reels, readings, fixes, shorelines.

namespace bedlore {

/// A row or line that cannot be used: where it is and what was expected. `line` counts from 1, a
/// CSV's header being line 1.
struct BadRow {
    std::string file;
    int line = 0;
    std::string field;
    std::string found;
    std::string expected;
    friend bool operator==(const BadRow&, const BadRow&) = default;
};

/// How many rows that is: one row may be wrong in several fields.
[[nodiscard]] std::size_t rowsIn(const std::vector<BadRow>& bad);

enum class BadRows : std::uint8_t { Refuse, Skip };
enum class SameFileAgain : std::uint8_t { Refuse, Allow };

constexpr const char* usualAdviceForAgain = "Ask for it again if its readings are meant twice.";

struct ImportOptions {
    std::optional<std::string> water; ///< its name; made if the book has none of that name
    BadRows badRows = BadRows::Refuse;
    SameFileAgain again = SameFileAgain::Refuse;
    std::string adviceForAgain = usualAdviceForAgain; ///< to whoever brings a file a second time
    std::size_t previewRows = 0;                      ///< of each file, for `ImportPlan::files`
};

struct ImportCounts {
    std::size_t swims = 0;
    std::size_t swimsChanged = 0; ///< known before, with another place or rod tip now
    std::size_t casts = 0;
    std::size_t readings = 0;
    std::size_t fixes = 0;
    std::size_t reels = 0;       ///< new or measured anew
    std::size_t shorelines = 0;  ///< banks and islands
    std::size_t shorePoints = 0; ///< their corners
    friend bool operator==(const ImportCounts&, const ImportCounts&) = default;
};

/// What an import would do. `edits` is empty when bad rows refuse it; `counts` are then zero.
/// `assumed` and `notices` are sentences.
struct ImportPlan {
    Edits edits;
    std::int64_t nextId = 1;
    ImportCounts counts;
    std::vector<std::string> assumed;
    std::vector<std::string> notices;
    std::vector<BadRow> bad;
    bool refused = false;
    bool isWholeBook = false; ///< the files are the tables of a book: no water was asked for
    bool canSkipBad = false;  ///< some rows are bad, and without them the rest would go in
    /// One for each file, in the order that they were named in; with as many rows as asked for.
    std::vector<FilePreview> files;
};

/// Reads `files` in the order that their contents need and plans their edits of `book`, whose free
/// ids begin at `nextId`. Of a folder its tables (.csv) are read. Changes nothing. Fails when a
/// file cannot be read, is of no known kind, was imported before, or when the water is not clear.
/// The tables of a whole book come in as they stand, their waters and ids too.
[[nodiscard]] Result<ImportPlan> planImport(
    const Book& book,
    std::int64_t nextId,
    const std::vector<std::filesystem::path>& files,
    const ImportOptions& options,
    const Progress& progress = {});

} // namespace bedlore
