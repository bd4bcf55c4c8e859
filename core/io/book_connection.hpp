// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"
#include "core/io/book_digests.hpp"
#include "core/io/book_lock.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/record_tables.hpp"
#include "core/io/sqlite_database.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

// What lies behind an open book: its database, what it held when it was last looked at, and how an
// edit becomes one transaction.

namespace bedlore {

/// Guards that hold for every connection. The first statement that looks into the file is not among
/// them.
[[nodiscard]] Result<void> guardConnection(Database& database);

/// Writes everything in `database` to a new file. Nothing is left there when it fails.
[[nodiscard]] Result<void> vacuumInto(Database& database, const std::filesystem::path& target);

/// Takes all rows as they are for what was written, and stores `counters` with them, inside a
/// transaction of the caller's. For a file that this program has made as a whole. Fails when a
/// record cannot be read.
[[nodiscard]] Result<BookDigests> sealAll(Database& database, BookCounters counters);

/// Not to be used from two threads at once.
class BookConnection {
public:
    BookConnection(std::filesystem::path filePath, std::optional<BookLock> held, Database opened);
    BookConnection(const BookConnection&) = delete;
    BookConnection& operator=(const BookConnection&) = delete;
    BookConnection(BookConnection&&) = delete;
    BookConnection& operator=(BookConnection&&) = delete;
    ~BookConnection() = default;

    /// Reads and checks everything, as it stands at one moment. Until it succeeds nothing of what
    /// was read before is given up.
    [[nodiscard]] Result<void> load(int newestFormat);
    /// Sets how writes are made durable, or that there are none.
    [[nodiscard]] Result<void> chooseMode();
    /// One transaction, all of it or nothing.
    [[nodiscard]] Result<void>
    write(const Edits& edits, std::int64_t nextId, const Progress& progress);
    [[nodiscard]] Result<void>
    writeDerived(const std::vector<Reduction>& reductions, const Progress& progress);
    /// Reads everything again where another program wrote. Gives whether the records are others
    /// now.
    [[nodiscard]] Result<bool> catchUp();
    void stopWriting();
    /// A complete copy at `draft`, which is not there.
    [[nodiscard]] Result<void> copyTo(const std::filesystem::path& draft);
    [[nodiscard]] std::string integrity();

    std::filesystem::path path;
    std::optional<BookLock> lock; ///< let go of after the database
    Database database;
    Book book;
    BookCounters counters;
    /// Tables of records in which another program wrote since this one did.
    std::vector<std::string> changedTables;
    bool writable = false;
    std::vector<std::string> notices;

private:
    [[nodiscard]] Result<void> loadInside(int newestFormat);
    [[nodiscard]] Result<void>
    writeInside(const Edits& edits, BookCounters& next, const Progress& progress);
    [[nodiscard]] Result<void> expectNobodyElse();
    [[nodiscard]] Result<void>
    seal(BookCounters& next, const std::vector<std::string_view>& touched);

    RecordWriter writer_;
    BookDigests digests_;
    int newestFormat_ = 0;
    bool sumsAreStale_ = false; ///< another program wrote rows: the next write stores every sum
    std::int64_t dataVersion_ = 0;
    bool mustLook_ = false; ///< a commit failed, and what the file holds now is not known
};

} // namespace bedlore
