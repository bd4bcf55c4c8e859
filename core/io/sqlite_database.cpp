// SPDX-License-Identifier: MIT
#include "core/io/sqlite_database.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <sqlite3.h>
#include <utility>

namespace bedlore {

std::string noBookWords(const std::string& fileName) {
    return "\"" + fileName +
           "\" is not a Bedlore book. If it is a page, a table (CSV) or a shoreline (GeoJSON, KML, "
           "GPX), open or make a book and take it in there with Import.";
}

namespace {

/// How long to wait for another program that is writing at this moment.
constexpr int busyMilliseconds = 2000;

bool isMoved(int code) {
    return code == SQLITE_READONLY_DBMOVED;
}

/// Whatever SQLite says, as a sentence for the angler about the file `name`.
Error sqliteError(int code, const std::string& name, const std::string& detail) {
    const std::string file = "\"" + name + "\"";
    const std::string context = "SQLite " + std::to_string(code) + ": " + detail;
    if (isMoved(code)) {
        return movedError(name);
    }
    if (code == SQLITE_READONLY_ROLLBACK || code == SQLITE_READONLY_RECOVERY) {
        return machineError(
            "A write to " + file +
                " was cut off and has to be taken back first, but the file or its folder is "
                "read-only. Copy it, with the file of its name that ends in -journal or -wal, to "
                "where you can write.",
            context);
    }
    switch (code & 0xff) {
    case SQLITE_NOTADB:
        return inputError(noBookWords(name), context);
    case SQLITE_CORRUPT:
        return inputError(
            file + " is damaged and cannot be read safely. Use a copy of it from before.", context);
    case SQLITE_FULL:
        return machineError(
            "The disk is full, so nothing was changed in " + file + ". Make room and try again.",
            context);
    case SQLITE_READONLY:
        return machineError(
            file + " cannot be written: the file or its folder is read-only. Nothing was changed.",
            context);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
        return machineError(
            "Another program is using " + file + ". Close it there and try again.", context);
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return machineError(
            file + " cannot be opened. Look at the permissions of the file and its folder.",
            context);
    case SQLITE_CONSTRAINT:
        return inputError(
            "This change does not fit what is in " + file + ". Nothing was changed.", context);
    case SQLITE_TOOBIG:
        return inputError("This is too large to be kept in " + file + ".", context);
    case SQLITE_IOERR:
        return machineError(
            "The disk failed or is full while " + file + " was used. Nothing was changed.",
            context);
    case SQLITE_ERROR:
        return inputError(
            file + " does not have the tables of a Bedlore book as they should be.", context);
    default:
        return machineError(file + " could not be used.", context);
    }
}

Result<void> setUp(sqlite3* database, const std::string& name) {
    sqlite3_extended_result_codes(database, 1);
    sqlite3_busy_timeout(database, busyMilliseconds);
    // One is what a copy into another file needs.
    sqlite3_limit(database, SQLITE_LIMIT_ATTACHED, 1);
    constexpr std::array<std::pair<int, int>, 5> switches{{
        {SQLITE_DBCONFIG_DEFENSIVE, 1},
        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        {SQLITE_DBCONFIG_DQS_DDL, 0},
        {SQLITE_DBCONFIG_DQS_DML, 0},
        {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
    }};
    for (const auto& [option, value] : switches) {
        const int code = sqlite3_db_config(database, option, value, nullptr);
        if (code != SQLITE_OK) {
            return fail(sqliteError(code, name, "configuration"));
        }
    }
    return {};
}

} // namespace

Error movedError(const std::string& fileName) {
    return machineError(
        "\"" + fileName +
            "\" was moved, removed or replaced while it was open, so nothing more can be kept in "
            "it. Put it back, or save a copy under another name.",
        "the file at the path is not the open one");
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

// A failed bind leaves the parameter null and the statement's own constraints tell; out of memory
// is the only cause with the indexes in range.
void Statement::bindNull(int parameter) {
    sqlite3_bind_null(statement_.get(), parameter);
}
void Statement::bind(int parameter, std::int64_t value) {
    sqlite3_bind_int64(statement_.get(), parameter, value);
}
void Statement::bind(int parameter, double value) {
    sqlite3_bind_double(statement_.get(), parameter, value);
}
void Statement::bind(int parameter, std::string_view value) {
    // An empty view may have no address, which SQLite would take for "no value".
    const char* start = value.empty() ? "" : value.data();
    sqlite3_bind_text64(
        statement_.get(), parameter, start, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
}
void Statement::bind(int parameter, std::span<const std::byte> value) {
    if (value.empty()) {
        sqlite3_bind_zeroblob(statement_.get(), parameter, 0);
    } else {
        sqlite3_bind_blob64(statement_.get(), parameter, value.data(), value.size(), SQLITE_STATIC);
    }
}

Result<bool> Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code == SQLITE_DONE) {
        return false;
    }
    sqlite3* database = sqlite3_db_handle(statement_.get());
    return fail(sqliteError(code, fileName_, sqlite3_errmsg(database)));
}

Result<void> Statement::run() {
    Result<bool> more = true;
    while (more && *more) {
        more = step();
    }
    reset();
    if (!more) {
        return fail(more.error());
    }
    return {};
}

void Statement::reset() {
    sqlite3_reset(statement_.get());
}

Cell Statement::cell(int column) const {
    return Cell(sqlite3_column_value(statement_.get(), column));
}

StoredType Cell::type() const {
    switch (sqlite3_value_type(value_)) {
    case SQLITE_INTEGER:
        return StoredType::Integer;
    case SQLITE_FLOAT:
        return StoredType::Real;
    case SQLITE_TEXT:
        return StoredType::Text;
    case SQLITE_BLOB:
        return StoredType::Blob;
    default:
        return StoredType::Null;
    }
}
std::int64_t Cell::integer() const {
    return sqlite3_value_int64(value_);
}
double Cell::real() const {
    return sqlite3_value_double(value_);
}
std::string_view Cell::text() const {
    const std::span<const std::byte> bytes = blob();
    // The bytes of a text as they are stored: asked for as a text they would be copied to get a
    // zero behind them.
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}
std::span<const std::byte> Cell::blob() const {
    const void* start = sqlite3_value_blob(value_);
    const int size = sqlite3_value_bytes(value_);
    return start == nullptr
               ? std::span<const std::byte>{}
               : std::span<const std::byte>(
                     static_cast<const std::byte*>(start), static_cast<std::size_t>(size));
}

void Database::Close::operator()(sqlite3* database) const {
    sqlite3_close_v2(database);
}

Result<Database> Database::open(const std::filesystem::path& path, Mode mode) {
    int flags = SQLITE_OPEN_READONLY;
    if (mode != Mode::ReadOnly) {
        flags = SQLITE_OPEN_READWRITE;
    }
    if (mode == Mode::Create) {
        flags |= SQLITE_OPEN_CREATE;
    }
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(
        path.c_str(), &handle, flags | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, nullptr);
    Database database(handle, path.filename().string());
    if (code != SQLITE_OK) {
        return fail(sqliteError(
            code, database.fileName_, handle != nullptr ? sqlite3_errmsg(handle) : "no memory"));
    }
    if (Result<void> done = setUp(handle, database.fileName_); !done) {
        return fail(done.error());
    }
    return database;
}

Result<void> Database::execute(const std::string& statements) {
    const int code = sqlite3_exec(database_.get(), statements.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        return fail(sqliteError(code, fileName_, sqlite3_errmsg(database_.get())));
    }
    return {};
}

Result<Statement> Database::prepare(std::string_view statement) const {
    sqlite3_stmt* prepared = nullptr;
    const int code = sqlite3_prepare_v3(
        database_.get(),
        statement.data(),
        static_cast<int>(statement.size()),
        SQLITE_PREPARE_PERSISTENT,
        &prepared,
        nullptr);
    if (code != SQLITE_OK) {
        return fail(sqliteError(code, fileName_, sqlite3_errmsg(database_.get())));
    }
    return Statement(prepared, fileName_);
}

Result<std::int64_t> Database::integer(std::string_view query) const {
    Result<Statement> statement = prepare(query);
    if (!statement) {
        return fail(statement.error());
    }
    const Result<bool> row = statement->step();
    if (!row) {
        return fail(row.error());
    }
    if (!*row || statement->cell(0).type() != StoredType::Integer) {
        return fail(sqliteError(SQLITE_ERROR, fileName_, "no number from: " + std::string(query)));
    }
    return statement->cell(0).integer();
}

Result<std::string> Database::text(std::string_view query) const {
    Result<Statement> statement = prepare(query);
    if (!statement) {
        return fail(statement.error());
    }
    const Result<bool> row = statement->step();
    if (!row) {
        return fail(row.error());
    }
    if (!*row) {
        return fail(sqliteError(SQLITE_ERROR, fileName_, "no text from: " + std::string(query)));
    }
    return std::string(statement->cell(0).text());
}

std::int64_t Database::changes() const {
    return sqlite3_changes64(database_.get());
}

bool Database::hasMoved() const {
    int moved = 0;
    const int code = sqlite3_file_control(database_.get(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
    return code == SQLITE_OK && moved != 0;
}

Result<FileChanges> Database::fileChanges() const {
    // Source: SQLite, "Database File Format", section 1.3: write version at byte 18, file change
    // counter at 24, version-valid-for number (the counter once more) at 92, big-endian.
    constexpr int headerSize = 100;
    std::array<unsigned char, headerSize> header{};
    sqlite3_file* file = nullptr;
    int code = sqlite3_file_control(database_.get(), "main", SQLITE_FCNTL_FILE_POINTER, &file);
    if (code == SQLITE_OK && (file == nullptr || file->pMethods == nullptr)) {
        code = SQLITE_CANTOPEN;
    }
    if (code == SQLITE_OK) {
        code = file->pMethods->xRead(file, header.data(), headerSize, 0);
    }
    // A new file has no header yet; its bytes read as zeros.
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        return fail(sqliteError(code, fileName_, "header"));
    }
    const auto number = [&](std::size_t at) {
        std::uint32_t value = 0;
        for (std::size_t i = at; i < at + 4; ++i) {
            value = (value << 8U) | header[i];
        }
        return value;
    };
    constexpr unsigned char throughALog = 2;
    return FileChanges{
        .count = number(24), .again = number(92), .hasLog = header[18] == throughALog};
}

Result<Transaction> Transaction::begin(Database& database) {
    if (Result<void> begun = database.execute("BEGIN IMMEDIATE"); !begun) {
        return fail(begun.error());
    }
    return Transaction(database);
}

Transaction::~Transaction() {
    if (database_ != nullptr) {
        // SQLite undoes some failed transactions by itself; then there is nothing left to undo.
        const Result<void> undone = database_->execute("ROLLBACK");
        static_cast<void>(undone);
    }
}

Result<void> Transaction::commit() {
    if (database_->hasMoved()) {
        return fail(movedError(database_->fileName()));
    }
    if (Result<void> committed = database_->execute("COMMIT"); !committed) {
        return committed;
    }
    const Database& database = *std::exchange(database_, nullptr);
    // Gone between the look before and the commit: what was written is in no file that he can find.
    return database.hasMoved() ? fail(movedError(database.fileName())) : Result<void>{};
}

StopsStatements::StopsStatements(Database& database, Progress progress)
    : database_(database.handle())
    , progress_(std::move(progress)) {
    constexpr int steps = 1000; // of its machine: far less than a millisecond
    sqlite3_progress_handler(
        database_,
        steps,
        [](void* asked) { return static_cast<const Progress*>(asked)->cancelled() ? 1 : 0; },
        &progress_);
}

StopsStatements::~StopsStatements() {
    sqlite3_progress_handler(database_, 0, nullptr, nullptr);
}

} // namespace bedlore
