// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sqlite_database.hpp"

#include <filesystem>
#include <string>

// What can be said of a book's file from outside, and of all that is in it.

namespace bedlore {

/// The name without its folder, in quotes, as sentences have it.
[[nodiscard]] std::string namedFile(const std::filesystem::path& path);

/// What keeps the file from being a book, before anything is opened: not there, a folder, a device,
/// empty, not to be read.
[[nodiscard]] Result<void> checkFile(const std::filesystem::path& path);

/// Whether a write was cut off and is still to be taken back: SQLite's journal lies beside the file
/// with its first bytes in place.
[[nodiscard]] bool hasHotJournal(const std::filesystem::path& path);

/// Whether the file and its folder may be written to.
[[nodiscard]] bool mayWriteBeside(const std::filesystem::path& path);

/// "ok", or everything that is wrong with pages, references and records, one after the other.
[[nodiscard]] std::string integrityOf(const Database& database);

} // namespace bedlore
