// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;
struct sqlite3_value;

// One connection to an SQLite file, its prepared statements, and its failures in sentences.

namespace bedlore {

enum class StoredType : std::uint8_t { Null, Integer, Real, Text, Blob };

/// That the file is something else, and what to do with it.
[[nodiscard]] std::string noBookWords(const std::string& fileName);

/// What a row holds in one column. Lives until the next `step` or `reset` of its statement. Each
/// accessor is for a cell of its type alone; texts are UTF-8.
class Cell {
public:
    explicit Cell(sqlite3_value* value)
        : value_(value) {}

    [[nodiscard]] StoredType type() const;
    [[nodiscard]] std::int64_t integer() const;
    [[nodiscard]] double real() const;
    [[nodiscard]] std::string_view text() const;
    [[nodiscard]] std::span<const std::byte> blob() const;

private:
    sqlite3_value* value_;
};

/// A prepared statement. Parameters count from 1, columns from 0, as in SQLite.
class Statement {
public:
    void bindNull(int parameter);
    void bind(int parameter, std::int64_t value);
    /// `value` is not NaN (SQLite would keep nothing in its place).
    void bind(int parameter, double value);
    void bind(int parameter, std::string_view value);
    /// `value` stays where it is until the statement has run.
    void bind(int parameter, std::span<const std::byte> value);

    /// True when there is a row to read, false at the end.
    [[nodiscard]] Result<bool> step();
    /// Steps to the end and makes the statement ready for the next use.
    [[nodiscard]] Result<void> run();
    void reset();

    [[nodiscard]] Cell cell(int column) const;

private:
    friend class Database;
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    Statement(sqlite3_stmt* statement, std::string name)
        : statement_(statement)
        , fileName_(std::move(name)) {}

    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
    std::string fileName_;
};

/// The count of changes in the header of a file, which every program that writes through SQLite
/// raises by one (modulo 2^32) with each transaction, except where it writes through a log. It
/// stands there twice.
struct FileChanges {
    std::uint32_t count = 0;
    std::uint32_t again = 0;
    bool hasLog = false; ///< the file is written through a log
};

/// An open database file, with every guard against a hostile or damaged file switched on: no schema
/// may run functions that are not harmless, no shadow table may be written, text in double quotes
/// is never a string. Durable: a commit is on the disk, the folder's entry too. A transaction that
/// is left open when the connection goes is undone.
class Database {
public:
    enum class Mode : std::uint8_t { ReadOnly, ReadWrite, Create };

    /// Opens without looking inside. `path` is absolute.
    [[nodiscard]] static Result<Database> open(const std::filesystem::path& path, Mode mode);

    /// Runs statements that give no rows.
    [[nodiscard]] Result<void> execute(const std::string& statements);
    [[nodiscard]] Result<Statement> prepare(std::string_view statement) const;
    /// The first column of the first row. Fails when there is none.
    [[nodiscard]] Result<std::int64_t> integer(std::string_view query) const;
    [[nodiscard]] Result<std::string> text(std::string_view query) const;

    /// Rows that the last statement changed.
    [[nodiscard]] std::int64_t changes() const;
    /// Whether the file was moved, removed or replaced since it was opened.
    [[nodiscard]] bool hasMoved() const;
    /// What the file's header says of its changes, as it is on the disk. Only while a transaction
    /// is open, so that nobody writes meanwhile.
    [[nodiscard]] Result<FileChanges> fileChanges() const;
    [[nodiscard]] const std::string& fileName() const { return fileName_; }
    [[nodiscard]] sqlite3* handle() const { return database_.get(); }

private:
    struct Close {
        void operator()(sqlite3* database) const;
    };
    Database(sqlite3* database, std::string fileName)
        : database_(database)
        , fileName_(std::move(fileName)) {}

    std::unique_ptr<sqlite3, Close> database_;
    std::string fileName_;
};

/// A transaction that takes the right to write at once, and is undone unless `commit` succeeds.
class Transaction {
public:
    [[nodiscard]] static Result<Transaction> begin(Database& database);
    Transaction(Transaction&& other) noexcept
        : database_(std::exchange(other.database_, nullptr)) {}
    Transaction& operator=(Transaction&&) = delete;
    ~Transaction();

    /// On success all of it is on the disk. Fails, with all of it undone, also when the file is no
    /// longer where it was.
    [[nodiscard]] Result<void> commit();

private:
    explicit Transaction(Database& database)
        : database_(&database) {}
    Database* database_;
};

/// What a file of that name that was moved or removed while it was open means for him.
[[nodiscard]] Error movedError(const std::string& fileName);

/// While it lives, statements fail as soon as `progress` is cancelled; what they did is then to be
/// rolled back.
class StopsStatements {
public:
    StopsStatements(Database& database, Progress progress);
    ~StopsStatements();
    StopsStatements(const StopsStatements&) = delete;
    StopsStatements& operator=(const StopsStatements&) = delete;

private:
    sqlite3* database_;
    Progress progress_;
};

} // namespace bedlore
