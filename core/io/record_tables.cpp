// SPDX-License-Identifier: MIT
#include "core/io/record_tables.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/references.hpp"
#include "core/io/import_text.hpp"
#include "core/io/record_columns.hpp"
#include "core/io/statement_columns.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace bedlore {

namespace {

std::string inQuotes(std::string_view name) {
    return "\"" + std::string(name) + "\"";
}

/// `column(name)` of each, with commas between.
template <class Text>
std::string listed(const Columns& columns, Text&& text) {
    std::string list;
    for (const Column& column : columns) {
        list += (list.empty() ? "" : ", ") + text(column);
    }
    return list;
}

std::string constraintsOf(const Column& column) {
    if (column.name == "id") {
        return " PRIMARY KEY AUTOINCREMENT NOT NULL";
    }
    std::string sql = column.required ? " NOT NULL" : "";
    if (!column.references.empty()) {
        sql += " REFERENCES " + inQuotes(column.references) + "(id) DEFERRABLE INITIALLY DEFERRED";
    }
    return sql;
}

template <class Record>
std::string createSql() {
    std::string sql = "CREATE TABLE " + inQuotes(tableName<Record>) + " (\n";
    const Columns& columns = columnsOf<Record>();
    for (const Column& column : columns) {
        const bool last = &column == &columns.back();
        sql += "  " + inQuotes(column.name) + " " + std::string(column.type);
        sql += constraintsOf(column);
        sql += last ? "" : ",";
        sql += column.comment.empty() ? "\n" : " -- " + std::string(column.comment) + "\n";
    }
    sql += ");\n";
    for (const Column& column : columns) {
        // What is taken out is looked for in every column that may point at it.
        if (column.name != "id" && !column.references.empty()) {
            const std::string table(tableName<Record>);
            sql += "CREATE INDEX " + inQuotes(table + "_by_" + column.name) + " ON " +
                   inQuotes(table) + "(" + inQuotes(column.name) + ");\n";
        }
    }
    return sql;
}

template <class Record>
const std::string& putSql() {
    static const std::string sql = [] {
        const Columns& columns = columnsOf<Record>();
        const auto name = [](const Column& column) { return inQuotes(column.name); };
        const auto mark = [](const Column&) { return std::string("?"); };
        const auto set = [](const Column& column) {
            return inQuotes(column.name) + " = excluded." + inQuotes(column.name);
        };
        // In place of the row with that id: removing it first would leave what points at it
        // hanging.
        return "INSERT INTO " + inQuotes(tableName<Record>) + " (" + listed(columns, name) +
               ") VALUES (" + listed(columns, mark) + ") ON CONFLICT (id) DO UPDATE SET " +
               listed(columns, set);
    }();
    return sql;
}

template <class Record>
const std::string& removeSql() {
    static const std::string sql = "DELETE FROM " + inQuotes(tableName<Record>) + " WHERE id = ?";
    return sql;
}

template <class Record>
std::string selectSql() {
    const auto name = [](const Column& column) { return inQuotes(column.name); };
    return "SELECT " + listed(columnsOf<Record>(), name) + " FROM " + inQuotes(tableName<Record>) +
           " ORDER BY id";
}

/// "table readings, row 12".
template <class Record>
std::string rowName(Id<Record> id) {
    return "table " + std::string(tableName<Record>) + ", row " + std::to_string(id.value);
}

Error damagedRow(const std::string& fileName, const std::string& where, const std::string& what) {
    return inputError(
        "\"" + fileName + "\" holds a row that this program cannot use: " + where + ": " +
        shownSentence(what) + ". Use a copy from before, or mend that row.");
}

/// Of the row that `rows` is at.
template <class Record>
std::uint64_t digestOf(const Statement& rows) {
    static const int columns = static_cast<int>(columnsOf<Record>().size());
    RowDigest digest(tableName<Record>);
    for (int column = 0; column < columns; ++column) {
        digest.cell(rows.cell(column));
    }
    return digest.value();
}

template <class Record>
Result<void> readTable(const Database& database, Table<Record>& table, BookDigests& digests) {
    Result<Statement> rows = database.prepare(selectSql<Record>());
    if (!rows) {
        return fail(rows.error());
    }
    std::int64_t last = 0;
    for (Result<bool> more = rows->step();; more = rows->step()) {
        if (!more) {
            return fail(more.error());
        }
        if (!*more) {
            return {};
        }
        auto record = std::make_shared<Record>();
        StatementReader from(*rows);
        visitFields(*record, [&]<class Field>(std::string_view, Field& field) {
            FieldCodec<Field>::read(from, field);
        });
        std::string problem = contradictionIn(*record);
        if (!from.problem().empty()) {
            const auto column = static_cast<std::size_t>(from.problemColumn());
            problem = columnsOf<Record>()[column].name + ": " + from.problem();
        } else if (record->id.value <= last) {
            problem = "id: the rows are out of order";
        }
        last = record->id.value;
        if (!problem.empty()) {
            return fail(damagedRow(database.fileName(), rowName(record->id), problem));
        }
        digests.append(tableName<Record>, record->id.value, digestOf<Record>(*rows));
        table.append(std::move(record));
    }
}

template <class Record>
Result<void> checkReferences(const Book& book, const std::string& fileName) {
    for (const Record& record : book.all<Record>()) {
        std::string missing;
        forEachReference(record, [&]<class Other>(Id<Other> id) {
            if (missing.empty() && book.find(id) == nullptr) {
                missing = rowName(id);
            }
        });
        if (!missing.empty()) {
            return fail(damagedRow(
                fileName, rowName(record.id), "it belongs to what is not there, " + missing));
        }
    }
    return {};
}

} // namespace

std::vector<std::string_view> recordTableNames() {
    std::vector<std::string_view> names;
    forEachType(AllRecords{}, [&]<class Record>() { names.push_back(tableName<Record>); });
    return names;
}

Result<void> createRecordTables(Database& database) {
    Result<void> done;
    forEachType(AllRecords{}, [&]<class Record>() {
        if (done) {
            done = database.execute(createSql<Record>());
        }
    });
    return done;
}

Result<StoredRecords> readRecords(const Database& database) {
    StoredRecords stored;
    Book& book = stored.book;
    Result<void> done;
    forEachType(AllRecords{}, [&]<class Record>() {
        if (done) {
            done = readTable(database, book.all<Record>(), stored.digests);
        }
    });
    forEachType(AllRecords{}, [&]<class Record>() {
        if (done) {
            done = checkReferences<Record>(book, database.fileName());
        }
    });
    if (!done) {
        return fail(done.error());
    }
    return stored;
}

std::int64_t firstFreeId(const Book& book) {
    std::int64_t largest = 0;
    forEachType(AllRecords{}, [&]<class Record>() {
        for (const Record& record : book.all<Record>()) {
            largest = std::max(largest, record.id.value);
        }
    });
    return largest + 1;
}

std::string_view tableOf(const Edit& edit) {
    return std::visit(
        Overloaded{
            []<class Record>(const Put<Record>&) { return tableName<Record>; },
            []<class Record>(const Remove<Record>&) { return tableName<Record>; }},
        edit);
}

Result<void> RecordWriter::write(const Edit& edit, BookDigests& digests) {
    return std::visit(
        Overloaded{
            [&]<class Record>(const Put<Record>& e) { return put(e.record, digests); },
            [&]<class Record>(const Remove<Record>& e) { return remove(e.id, digests); }},
        edit);
}

Result<Statement*> RecordWriter::statement(const std::string& sql) {
    const auto found = prepared_.find(sql);
    if (found != prepared_.end()) {
        return &found->second;
    }
    Result<Statement> made = database_->prepare(sql);
    if (!made) {
        return fail(made.error());
    }
    return &prepared_.emplace(sql, std::move(*made)).first->second;
}

template <class Record>
Result<void> RecordWriter::put(const Record& record, BookDigests& digests) {
    Result<Statement*> put = statement(putSql<Record>());
    if (!put) {
        return fail(put.error());
    }
    StatementWriter to(**put, tableName<Record>);
    visitFields(record, [&]<class Field>(std::string_view, const Field& field) {
        FieldCodec<Field>::write(to, field);
    });
    std::string problem = to.problem().empty() ? contradictionIn(record) : to.problem();
    if (!problem.empty()) {
        (*put)->reset();
        return fail(inputError(
            "This cannot be kept in \"" + database_->fileName() + "\": " + problem + ".",
            "put " + rowName(record.id)));
    }
    Result<void> done = (*put)->run();
    if (done) {
        digests.put(tableName<Record>, record.id.value, to.digest());
    }
    return done;
}

template <class Record>
Result<void> RecordWriter::remove(Id<Record> id, BookDigests& digests) {
    Result<Statement*> removal = statement(removeSql<Record>());
    if (!removal) {
        return fail(removal.error());
    }
    (*removal)->bind(1, id.value);
    Result<void> done = (*removal)->run();
    if (done && database_->changes() != 1) {
        return fail(inputError(
            "What was to be removed is no longer in \"" + database_->fileName() +
                "\". Another program may have changed it; close the book and open it again.",
            "remove " + rowName(id)));
    }
    if (done) {
        digests.remove(tableName<Record>, id.value);
    }
    return done;
}

} // namespace bedlore
