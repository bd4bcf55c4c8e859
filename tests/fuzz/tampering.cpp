// SPDX-License-Identifier: MIT
#include "tests/fuzz/tampering.hpp"

#include "tests/fuzz/books.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/scratch.hpp"

#include <charconv>
#include <memory>
#include <optional>
#include <sqlite3.h>
#include <string>
#include <vector>

namespace bedlore::fuzz {

namespace {

constexpr std::string_view magic{"SQLite format 3\0", 16};

struct Close {
    void operator()(sqlite3* database) const { sqlite3_close_v2(database); }
};

/// A statement of a fuzzer's must end, stay in its file and fit in memory.
std::unique_ptr<sqlite3, Close> openToTamper(const std::filesystem::path& path) {
    sqlite3* handle = nullptr;
    must(sqlite3_open(path.c_str(), &handle) == SQLITE_OK, "a book is an SQLite file");
    constexpr int instructions = 20'000;
    sqlite3_progress_handler(
        handle, instructions, [](void*) { return 1; }, nullptr);
    sqlite3_limit(handle, SQLITE_LIMIT_ATTACHED, 0);
    sqlite3_limit(handle, SQLITE_LIMIT_LENGTH, 100'000);
    // As a program would that knows nothing of what a book promises.
    sqlite3_exec(
        handle,
        "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; "
        "PRAGMA synchronous = OFF; PRAGMA writable_schema = ON",
        nullptr,
        nullptr,
        nullptr);
    return std::unique_ptr<sqlite3, Close>(handle);
}

std::optional<std::size_t> numberAt(std::string_view& text) {
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{}) {
        return std::nullopt;
    }
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return number;
}

void putBytesAt(std::string& bytes, std::string_view words) {
    const auto offset = numberAt(words);
    words.remove_prefix(std::min(words.find_first_not_of(' '), words.size()));
    for (std::size_t i = 0; offset && i + 2 <= words.size(); i += 2) {
        unsigned value = 0;
        std::from_chars(words.data() + i, words.data() + i + 2, value, 16);
        bytes[(*offset + i / 2) % bytes.size()] = static_cast<char>(value);
    }
}

std::vector<std::string_view> linesOf(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

void runStatements(const std::filesystem::path& path, const std::vector<std::string_view>& lines) {
    const auto database = openToTamper(path);
    for (const std::string_view line : lines) {
        if (line.starts_with("sql ")) {
            sqlite3_exec(
                database.get(), std::string(line.substr(4)).c_str(), nullptr, nullptr, nullptr);
        }
    }
}

} // namespace

void tamper(const std::filesystem::path& path, std::string_view input) {
    const std::string name = path.filename().string();
    std::error_code ignored;
    std::filesystem::remove(path.string() + "-journal", ignored);
    std::filesystem::remove(path.string() + "-wal", ignored);
    std::filesystem::remove(path.string() + "-shm", ignored);
    if (input.starts_with(magic)) {
        static_cast<void>(scratch().put(name, input));
        return;
    }
    static_cast<void>(scratch().put(name, bytesOfABook()));
    const std::vector<std::string_view> lines = linesOf(input);
    runStatements(path, lines);
    std::string bytes = bytesOf(path);
    for (std::string_view line : lines) {
        if (line.starts_with("at ") && !bytes.empty()) {
            line.remove_prefix(3);
            putBytesAt(bytes, line);
        } else if (line.starts_with("cut ")) {
            line.remove_prefix(4);
            bytes.resize(std::min(bytes.size(), numberAt(line).value_or(bytes.size())));
        }
    }
    static_cast<void>(scratch().put(name, bytes));
}

} // namespace bedlore::fuzz
