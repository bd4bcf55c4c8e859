// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/edit.hpp"
#include "core/io/book_digests.hpp"
#include "core/io/sqlite_database.hpp"

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

// The tables of what he noted: one for each type of record, made from the one list of fields.

namespace bedlore {

/// Names of all record tables, parents first.
[[nodiscard]] std::vector<std::string_view> recordTableNames();

/// Makes every record table with its references and indexes.
[[nodiscard]] Result<void> createRecordTables(Database& database);

struct StoredRecords {
    Book book;
    BookDigests digests;
};

/// Every record. Fails with the first that is not as it should be, by table and row: an unknown
/// word, a number that is not finite, something that it points at and that is not there.
[[nodiscard]] Result<StoredRecords> readRecords(const Database& database);

/// The first id above every record's.
[[nodiscard]] std::int64_t firstFreeId(const Book& book);

/// Puts edits into the record tables, inside a transaction of the caller's.
class RecordWriter {
public:
    /// `database` outlives the writer.
    explicit RecordWriter(Database& database)
        : database_(&database) {}

    /// What is written goes into `digests` too.
    [[nodiscard]] Result<void> write(const Edit& edit, BookDigests& digests);

private:
    [[nodiscard]] Result<Statement*> statement(const std::string& sql);
    template <class Record>
    [[nodiscard]] Result<void> put(const Record& record, BookDigests& digests);
    template <class Record>
    [[nodiscard]] Result<void> remove(Id<Record> id, BookDigests& digests);

    Database* database_;
    std::map<std::string, Statement> prepared_;
};

/// The table that an edit changes.
[[nodiscard]] std::string_view tableOf(const Edit& edit);

} // namespace bedlore
