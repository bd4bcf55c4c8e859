// SPDX-License-Identifier: MIT
#include "core/io/book_inspection.hpp"

#include "core/io/geopackage_schema.hpp"
#include "core/io/record_tables.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <system_error>
#include <unistd.h>

namespace bedlore {

namespace fs = std::filesystem;

std::string namedFile(const fs::path& path) {
    return "\"" + path.filename().string() + "\"";
}

Result<void> checkFile(const fs::path& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) {
        return fail(inputError("There is no book \"" + path.string() + "\"."));
    }
    if (fs::is_directory(status)) {
        return fail(inputError("\"" + path.string() + "\" is a folder, not a book."));
    }
    if (!fs::is_regular_file(status)) {
        return fail(inputError("\"" + path.string() + "\" is not a file, so not a book."));
    }
    const std::uintmax_t size = fs::file_size(path, error);
    if (error) {
        return fail(machineError(namedFile(path) + " cannot be looked at.", error.message()));
    }
    if (size == 0) {
        return fail(inputError(
            namedFile(path) +
            " is empty. A book is never an empty file: use a copy of it from before."));
    }
    if (::access(path.c_str(), R_OK) != 0) {
        return fail(machineError(namedFile(path) + " may not be read. Look at its permissions."));
    }
    return {};
}

bool hasHotJournal(const fs::path& path) {
    // Source: SQLite, "Database File Format", section 3, the rollback journal.
    constexpr std::array<unsigned char, 8> magic{0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7};
    std::ifstream journal(path.string() + "-journal", std::ios::binary);
    std::array<char, 8> start{};
    return journal.read(start.data(), start.size()) &&
           std::equal(magic.begin(), magic.end(), start.begin(), [](unsigned char a, char b) {
               return a == static_cast<unsigned char>(b);
           });
}

bool mayWriteBeside(const fs::path& path) {
    return ::access(path.c_str(), W_OK) == 0 && ::access(path.parent_path().c_str(), W_OK) == 0;
}

std::string integrityOf(const Database& database) {
    std::string found;
    const auto add = [&](const std::string& problem) {
        found += (found.empty() ? "" : "; ") + problem;
    };
    const auto collect = [&](const char* pragma, auto&& words) {
        Result<Statement> rows = database.prepare(pragma);
        if (!rows) {
            add(rows.error().message);
            return;
        }
        Result<bool> more = rows->step();
        for (; more && *more; more = rows->step()) {
            words(*rows);
        }
        if (!more) {
            add(more.error().message);
        }
    };
    collect("PRAGMA integrity_check(20)", [&](const Statement& row) {
        if (row.cell(0).text() != "ok") {
            add(std::string(row.cell(0).text()));
        }
    });
    collect("PRAGMA foreign_key_check", [&](const Statement& row) {
        add("table " + std::string(row.cell(0).text()) + ", row " +
            std::to_string(row.cell(1).integer()) + ": it belongs to what is not there, in table " +
            std::string(row.cell(2).text()));
    });
    if (const Result<BookCounters> counters = readCounters(database); !counters) {
        add(counters.error().message);
    }
    if (const Result<Book> records = readRecords(database); !records) {
        add(records.error().message);
    }
    return found.empty() ? "ok" : found;
}

} // namespace bedlore
