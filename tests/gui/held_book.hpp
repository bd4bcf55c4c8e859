// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <sqlite3.h>

namespace bedlore::testing {

/// Another program that is about to write to a book: until it lets go, whoever else would write
/// waits for it, two seconds at the most.
class HeldBook {
public:
    explicit HeldBook(const std::filesystem::path& path) {
        EXPECT_EQ(sqlite3_open(path.c_str(), &database_), SQLITE_OK);
        EXPECT_EQ(sqlite3_exec(database_, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr), SQLITE_OK);
    }
    ~HeldBook() { letGo(); }
    HeldBook(const HeldBook&) = delete;
    HeldBook& operator=(const HeldBook&) = delete;
    HeldBook(HeldBook&&) = delete;
    HeldBook& operator=(HeldBook&&) = delete;

    void letGo() {
        sqlite3_close(database_);
        database_ = nullptr;
    }

private:
    sqlite3* database_ = nullptr;
};

} // namespace bedlore::testing
