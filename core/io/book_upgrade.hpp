// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sqlite_database.hpp"

#include <filesystem>
#include <span>

// Books of older formats, which are brought up to date on a copy.

namespace bedlore {

/// Leads a book of format `from` to the next one, inside a transaction of the caller's: its tables,
/// not its counters and check sums.
struct UpgradeStep {
    int from = 0;
    Result<void> (*apply)(Database& database) = nullptr;
};

/// What a program reads: books of format `newest`, and older ones by `steps`, of which there is one
/// for each format from 1 up.
struct BookFormats {
    int newest = 0;
    std::span<const UpgradeStep> steps;
};

/// Those of this program.
[[nodiscard]] const BookFormats& bookFormats();

/// Writes the book in `old`, of format `from`, as one of the newest format to the file `draft`,
/// which is not there. Reads everything in it as a check; where something is not as it should be,
/// nothing is left at `draft`. `old` is not changed.
[[nodiscard]] Result<void> writeUpgraded(
    Database& old, const std::filesystem::path& draft, int from, const BookFormats& formats);

/// Puts `draft` in the place of the book at `path`, which stays beside it as `NAME.vN.gpkg` (N its
/// format). Gives that path. At every moment there is a whole book at `path`.
[[nodiscard]] Result<std::filesystem::path>
putInPlace(const std::filesystem::path& draft, const std::filesystem::path& path, int from);

} // namespace bedlore
