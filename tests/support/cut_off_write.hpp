// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <sqlite3.h>

// A write to a book that was cut off.

namespace bedlore::testing {

/// Makes at `path` what a process leaves that is killed in the middle of a write: pages of the file
/// already changed, the journal still there. The book holds readings and a page.
inline void cutOffAWrite(const std::filesystem::path& path) {
    namespace fs = std::filesystem;
    const fs::path other = path.string() + ".other";
    fs::copy_file(path, other);
    sqlite3* database = nullptr;
    ASSERT_EQ(sqlite3_open(other.c_str(), &database), SQLITE_OK);
    // A cache of one page makes SQLite put changed pages into the file before the commit.
    ASSERT_EQ(
        sqlite3_exec(
            database,
            "PRAGMA cache_size = 1; BEGIN; UPDATE words SET text = 'half'; UPDATE readings SET "
            "note = 'half'; UPDATE spots SET name = 'half'; UPDATE answers SET answer = 'half'; "
            "UPDATE page_lines SET text = 'half'; UPDATE waters SET name = 'half'; UPDATE visits "
            "SET note = 'half'; UPDATE gpkg_contents SET description = 'half';",
            nullptr,
            nullptr,
            nullptr),
        SQLITE_OK)
        << sqlite3_errmsg(database);
    fs::copy_file(other, path, fs::copy_options::overwrite_existing);
    fs::copy_file(other.string() + "-journal", path.string() + "-journal");
    sqlite3_close(database);
    fs::remove(other);
}

} // namespace bedlore::testing
