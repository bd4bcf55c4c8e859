// SPDX-License-Identifier: MIT
#include "core/io/book_inspection.hpp"

#include "core/book/fields.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/import_text.hpp"
#include "core/io/record_tables.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <system_error>
#include <unistd.h>

namespace bedlore {

namespace fs = std::filesystem;

namespace {
constexpr const char* whatABookIs = "A book is one file that ends in .gpkg: choose that.";
} // namespace

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
        return fail(
            inputError("\"" + path.string() + "\" is a folder, not a book. " + whatABookIs));
    }
    if (!fs::is_regular_file(status)) {
        return fail(
            inputError("\"" + path.string() + "\" is not a file, so not a book. " + whatABookIs));
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

Result<void> checkLastPage(const Database& database, const fs::path& path) {
    const Result<std::int64_t> pageSize = database.integer("PRAGMA page_size");
    if (!pageSize) {
        return fail(pageSize.error());
    }
    std::error_code gone;
    const std::uintmax_t size = fs::file_size(path, gone);
    if (gone || size % static_cast<std::uintmax_t>(*pageSize) == 0) {
        return {};
    }
    return fail(inputError(
        namedFile(path) + " is damaged: its end is missing. Use a copy of it from before.",
        std::to_string(size) + " bytes in pages of " + std::to_string(*pageSize)));
}

Result<SumsFound>
compareSums(const Database& database, const BookCounters& counters, const BookDigests& digests) {
    const Result<StoredSums> stored = readStoredSums(database);
    if (!stored) {
        return fail(stored.error());
    }
    const Result<FileChanges> changes = database.fileChanges();
    if (!changes) {
        return fail(changes.error());
    }
    // Of two counts in the header one may be damaged itself; a program that writes sets both.
    const auto isOurs = [&](std::uint32_t count) {
        return counters.changeCount == std::int64_t{count};
    };
    SumsFound found;
    found.anotherWrote = !counters.changeCount || changes->hasLog ||
                         !(isOurs(changes->count) || isOurs(changes->again));
    const auto compare = [&](std::string_view table, const TableSum& read) {
        const auto written = stored->find(table);
        if (written == stored->end() || written->second != read) {
            found.different.emplace_back(table);
        }
    };
    for (const std::string_view table : recordTableNames()) {
        compare(table, digests.sumOf(table));
    }
    compare(metaTableName, sumOf(counters));
    return found;
}

namespace {

/// A table's records in the angler's words: "page lines" for page_lines.
std::string recordsOf(const std::string& table) {
    if (table == tableName<Swim>) {
        return "swims";
    }
    if (table == tableName<Cast>) {
        return "casts";
    }
    if (table == tableName<FixSet>) {
        return "depths from elsewhere";
    }
    if (table == metaTableName) {
        return "counters";
    }
    std::string words = table;
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

} // namespace

std::string namedTables(const std::vector<std::string>& tables) {
    std::string text;
    for (std::size_t i = 0; i < tables.size(); ++i) {
        const bool last = i + 1 == tables.size();
        text += (i == 0 ? "" : last ? " and " : ", ") + recordsOf(tables[i]);
    }
    return text;
}

Error damagedTables(const fs::path& path, const std::vector<std::string>& tables) {
    return inputError(
        namedFile(path) + " is damaged: its " + namedTables(tables) +
            " are not what was written there. Use a copy of it from before.",
        "check sums");
}

namespace {

template <class Visit>
Result<void> forEachRow(const Database& database, const char* query, const Visit& visit) {
    Result<Statement> rows = database.prepare(query);
    if (!rows) {
        return fail(rows.error());
    }
    Result<bool> more = rows->step();
    for (; more && *more; more = rows->step()) {
        visit(*rows);
    }
    if (!more) {
        return fail(more.error());
    }
    return {};
}

/// What a row of `integrity_check` finds wrong; nothing where it is "ok".
std::string pageProblem(const Statement& row) {
    std::string said(row.cell(0).text());
    return said == "ok" ? "" : shownSentence(said);
}

/// What a row of `foreign_key_check` finds wrong.
std::string referenceProblem(const Statement& row) {
    return "table " + shown(row.cell(0).text()) + ", row " + std::to_string(row.cell(1).integer()) +
           ": it belongs to what is not there, in table " + shown(row.cell(2).text());
}

/// What is wrong with the records themselves, and with the sums over them.
std::vector<std::string> recordProblems(const Database& database, const fs::path& path) {
    std::vector<std::string> problems;
    const Result<BookCounters> counters = readCounters(database);
    if (!counters) {
        problems.push_back(counters.error().message);
    }
    const Result<StoredRecords> records = readRecords(database);
    if (!records) {
        problems.push_back(records.error().message);
    }
    if (counters && records) {
        const Result<SumsFound> sums = compareSums(database, *counters, records->digests);
        if (!sums || sums->areDamage()) {
            problems.push_back(
                sums ? damagedTables(path, sums->different).message : sums.error().message);
        }
    }
    return problems;
}

} // namespace

std::string integrityOf(const Database& database, const fs::path& path) {
    std::string found;
    const auto add = [&](const std::string& problem) {
        found += (found.empty() ? "" : "; ") + problem;
    };
    const auto collect = [&](const char* pragma, const auto& problemIn) {
        const Result<void> read = forEachRow(database, pragma, [&](const Statement& row) {
            if (const std::string problem = problemIn(row); !problem.empty()) {
                add(problem);
            }
        });
        if (!read) {
            add(read.error().message);
        }
    };
    collect("PRAGMA integrity_check(20)", pageProblem);
    collect("PRAGMA foreign_key_check", referenceProblem);
    for (const std::string& problem : recordProblems(database, path)) {
        add(problem);
    }
    return found.empty() ? "ok" : found;
}

} // namespace bedlore
