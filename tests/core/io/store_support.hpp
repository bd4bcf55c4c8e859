// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/book_file.hpp"
#include "tests/support/python.hpp"
#include "tests/support/sample_records.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <sys/wait.h>

// What the tests of the book's file share.

namespace bedlore::testing {

/// The book that edits make from nothing.
inline Book bookOf(const Edits& edits) {
    Result<Applied> applied = applyEdits(Book{}, edits);
    EXPECT_TRUE(applied) << (applied ? "" : applied.error().message);
    return applied ? applied->book : Book{};
}

template <class T>
std::string sayings(const Result<T>& result) {
    return result ? "it worked" : result.error().message + " [" + result.error().context + "]";
}

/// A closed book with every record in it; false with a test failure when it cannot be made.
inline bool makeFullBook(const std::filesystem::path& path) {
    Result<BookFile> file = BookFile::create(path);
    EXPECT_TRUE(file) << sayings(file);
    if (!file) {
        return false;
    }
    const Result<void> written = file->write(everyRecord(), 27);
    EXPECT_TRUE(written) << sayings(written);
    return written.has_value();
}

inline void putBytes(const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream out(path, std::ios::binary | std::ios::trunc);
    out << bytes;
}

struct Output {
    int status = -1;
    std::string text;
};

/// What another program says, both of its streams together.
inline Output run(const std::string& command) {
    Output output;
    FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) {
        return output;
    }
    std::array<char, 4096> chunk{};
    for (std::size_t n = 0; (n = std::fread(chunk.data(), 1, chunk.size(), pipe)) > 0;) {
        output.text.append(chunk.data(), n);
    }
    const int status = ::pclose(pipe);
    output.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return output;
}

inline std::string inQuotes(const std::filesystem::path& path) {
    return "'" + path.string() + "'";
}

/// GDAL's own checker of GeoPackages; it says nothing about a good one.
inline Output validated(const std::filesystem::path& book) {
    return run(
        std::string(python) + " -W ignore -m osgeo_utils.samples.validate_gpkg " + inQuotes(book));
}

/// Changes a file the way another program would, through the sqlite3 shell.
inline Output sqlite(const std::filesystem::path& book, const std::string& sql) {
    return run("sqlite3 " + inQuotes(book) + " \"" + sql + "\"");
}

MATCHER(isASentence, "") {
    *result_listener << "which is " << arg;
    return arg.size() > 15 && arg.back() == '.' && arg.find('\n') == std::string::npos;
}

} // namespace bedlore::testing
