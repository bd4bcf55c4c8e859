// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"

#include "core/io/book_inspection.hpp"
#include "core/io/book_lock.hpp"
#include "core/io/derived_tables.hpp"
#include "core/io/geopackage_geometry.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/new_file.hpp"
#include "core/io/record_tables.hpp"
#include "core/io/schema_guard.hpp"
#include "core/io/sqlite_database.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <system_error>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

Error readOnlyError(const fs::path& path) {
    return machineError(namedFile(path) + " is open for reading only. Nothing was changed.");
}

/// What an opener who wants to write gets: the lock, or a sentence that says why not.
struct WriteRight {
    std::optional<BookLock> lock;
    std::string notice;
};

WriteRight askToWrite(const fs::path& path, bool mayWrite) {
    BookLock::Refusal refusal = BookLock::Refusal::Impossible;
    if (mayWrite) {
        BookLock::Attempt attempt = BookLock::take(path);
        if (attempt.lock) {
            return {.lock = std::move(attempt.lock), .notice = {}};
        }
        refusal = attempt.refusal;
    }
    return {
        .lock = std::nullopt,
        .notice = refusal == BookLock::Refusal::Taken
                      ? namedFile(path) + " is open in another window or program, so it can only "
                                          "be read here."
                      : namedFile(path) + " or its folder is read-only, so nothing can be changed "
                                          "in it here. Save a copy elsewhere to write in it."};
}

/// Guards that hold for every connection. The first statement that looks into the file is not among
/// them.
Result<void> guard(Database& database) {
    confineTriggers(database);
    if (Result<void> registered = registerSpatialFunctions(database); !registered) {
        return registered;
    }
    return database.execute("PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON;"
                            "PRAGMA secure_delete = ON; PRAGMA synchronous = EXTRA;"
                            "PRAGMA mmap_size = 0; PRAGMA temp_store = MEMORY;"
                            // Pages that were checked are not read again for their records.
                            "PRAGMA cache_size = -65536;");
}

} // namespace

class BookFile::Connection {
public:
    Connection(fs::path filePath, std::optional<BookLock> held, Database opened)
        : path(std::move(filePath))
        , lock(std::move(held))
        , database(std::move(opened))
        , writer(database) {}
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;
    Connection(Connection&&) = delete;
    Connection& operator=(Connection&&) = delete;
    ~Connection() = default;

    /// Reads and checks everything, as it stands at one moment.
    Result<void> load();
    Result<void> loadInside();
    Result<void> writeEdits(const Edits& edits, std::int64_t nextIdAfter);
    Result<void> noteDataVersion();
    /// Sets how writes are made durable, or that there are none.
    Result<void> chooseMode();

    fs::path path;
    std::optional<BookLock> lock; ///< let go of after the database
    Database database;
    RecordWriter writer;
    Book book;
    BookCounters counters;
    bool writable = false;
    std::int64_t dataVersion = 0;
    std::vector<std::string> notices;
};

Result<void> BookFile::Connection::load() {
    if (Result<void> begun = database.execute("BEGIN"); !begun) {
        return begun;
    }
    Result<void> done = loadInside();
    Result<void> ended = database.execute("COMMIT");
    return done ? ended : done;
}

Result<void> BookFile::Connection::loadInside() {
    if (Result<void> isBook = checkIsBook(database); !isBook) {
        return isBook;
    }
    if (Result<void> harmless = checkSchemaParts(database); !harmless) {
        return harmless;
    }
    const Result<std::string> pages = database.text("PRAGMA quick_check(1)");
    if (!pages || *pages != "ok") {
        return fail(inputError(
            namedFile(path) +
                " is damaged and cannot be read safely. Use a copy of it from before.",
            pages ? *pages : pages.error().context));
    }
    const Result<BookCounters> read = readCounters(database);
    if (!read) {
        return fail(read.error());
    }
    Result<Book> records = readRecords(database);
    if (!records) {
        return fail(records.error());
    }
    counters = *read;
    book = std::move(*records);
    // Rows that another program added took ids without asking the counter.
    counters.nextId = std::max(counters.nextId, firstFreeId(book));
    return noteDataVersion();
}

Result<void> BookFile::Connection::noteDataVersion() {
    const Result<std::int64_t> version = database.integer("PRAGMA data_version");
    if (!version) {
        return fail(version.error());
    }
    dataVersion = *version;
    return {};
}

Result<void> BookFile::Connection::chooseMode() {
    if (!writable) {
        return database.execute("PRAGMA query_only = ON");
    }
    if (!database.execute("PRAGMA journal_mode = DELETE")) {
        // A program that reads the file through a write-ahead log keeps it in that mode. Writes are
        // as durable there; only the single file is not complete until that program is closed.
        notices.push_back(
            "Another program has " + namedFile(path) +
            " open too. Close it there before you copy or move the book.");
    }
    return {};
}

Result<void> BookFile::Connection::writeEdits(const Edits& edits, std::int64_t nextIdAfter) {
    std::set<std::string_view> touched;
    for (const Edit& edit : edits) {
        if (Result<void> done = writer.write(edit); !done) {
            return done;
        }
        touched.insert(tableOf(edit));
    }
    Result<Statement> date = database.prepare(
        "UPDATE gpkg_contents SET last_change = strftime('%Y-%m-%dT%H:%M:%fZ', 'now') "
        "WHERE table_name = ?");
    Result<Statement> count =
        database.prepare("UPDATE meta SET next_id = ?, edit_number = edit_number + 1 "
                         "WHERE id = 1 AND edit_number = ?");
    if (!date || !count) {
        return fail(date ? count.error() : date.error());
    }
    for (const std::string_view table : touched) {
        date->bind(1, table);
        if (Result<void> done = date->run(); !done) {
            return done;
        }
    }
    count->bind(1, nextIdAfter);
    count->bind(2, counters.editNumber);
    if (Result<void> done = count->run(); !done) {
        return done;
    }
    if (database.changes() != 1) {
        return fail(machineError(
            "Another program has written to " + namedFile(path) +
                ", so nothing was kept. Close the book and open it again.",
            "edit number"));
    }
    return {};
}

BookFile::BookFile(std::unique_ptr<Connection> connection)
    : connection_(std::move(connection)) {}
BookFile::BookFile(BookFile&&) noexcept = default;
BookFile& BookFile::operator=(BookFile&&) noexcept = default;
BookFile::~BookFile() = default;

Result<BookFile> BookFile::create(const fs::path& path) {
    const fs::path target = fs::absolute(path).lexically_normal();
    const Result<fs::path> draft = draftFor(target);
    if (!draft) {
        return fail(draft.error());
    }
    const auto make = [&]() -> Result<void> {
        Result<Database> database = Database::open(*draft, Database::Mode::Create);
        if (!database) {
            return fail(database.error());
        }
        if (Result<void> guarded = guard(*database); !guarded) {
            return guarded;
        }
        Result<Transaction> transaction = Transaction::begin(*database);
        if (!transaction) {
            return fail(transaction.error());
        }
        if (Result<void> made = createGeoPackage(*database); !made) {
            return made;
        }
        return transaction->commit();
    };
    if (const Result<void> made = make(); !made) {
        std::error_code ignored;
        fs::remove(*draft, ignored);
        return fail(
            {made.error().fault,
             namedFile(target) + " cannot be made there. Is the folder read-only or the disk full?",
             made.error().message + " " + made.error().context});
    }
    if (Result<void> published = publishDraft(*draft, target); !published) {
        return fail(published.error());
    }
    return open(target);
}

Result<BookFile> BookFile::open(const fs::path& path, BookAccess access) {
    if (Result<void> fine = checkFile(path); !fine) {
        return fail(fine.error());
    }
    // One book has one lock, whatever link leads to it.
    std::error_code error;
    const fs::path real = fs::canonical(path, error);
    if (error) {
        return fail(machineError(namedFile(path) + " cannot be reached.", error.message()));
    }
    const bool mayWrite = mayWriteBeside(real);
    WriteRight right = access == BookAccess::ReadWrite ? askToWrite(real, mayWrite) : WriteRight{};
    const bool wasCutOff = hasHotJournal(real);
    // Taking back a write that was cut off needs the right to write, in a book that is only read
    // too.
    Result<Database> database =
        Database::open(real, mayWrite ? Database::Mode::ReadWrite : Database::Mode::ReadOnly);
    if (!database) {
        return fail(database.error());
    }
    auto connection =
        std::make_unique<Connection>(real, std::move(right.lock), std::move(*database));
    if (!right.notice.empty()) {
        connection->notices.push_back(std::move(right.notice));
    }
    connection->writable = connection->lock.has_value();
    if (Result<void> guarded = guard(connection->database); !guarded) {
        return fail(guarded.error());
    }
    if (Result<void> loaded = connection->load(); !loaded) {
        return fail(loaded.error());
    }
    if (wasCutOff && !hasHotJournal(real)) {
        connection->notices.push_back(
            "The last write to " + namedFile(real) +
            " was cut off before it was finished and has been taken back. Everything that was "
            "shown as kept is here.");
    }
    if (Result<void> chosen = connection->chooseMode(); !chosen) {
        return fail(chosen.error());
    }
    return BookFile(std::move(connection));
}

const fs::path& BookFile::path() const {
    return connection_->path;
}
const Book& BookFile::book() const {
    return connection_->book;
}
std::int64_t BookFile::nextId() const {
    return connection_->counters.nextId;
}
bool BookFile::isWritable() const {
    return connection_->writable;
}
const std::vector<std::string>& BookFile::notices() const {
    return connection_->notices;
}
std::int64_t BookFile::editNumber() const {
    return connection_->counters.editNumber;
}

Result<void> BookFile::write(const Edits& edits, std::int64_t nextId) {
    Connection& c = *connection_;
    if (!c.writable) {
        return fail(readOnlyError(c.path));
    }
    const std::int64_t next = std::max({c.counters.nextId, nextId, largestId(edits) + 1});
    Result<Transaction> transaction = Transaction::begin(c.database);
    if (!transaction) {
        return fail(transaction.error());
    }
    if (Result<void> done = c.writeEdits(edits, next); !done) {
        return done;
    }
    if (Result<void> committed = transaction->commit(); !committed) {
        return committed;
    }
    c.counters.nextId = next;
    ++c.counters.editNumber;
    return {};
}

Result<void> BookFile::writeDerived(const std::vector<Reduction>& reductions) {
    Connection& c = *connection_;
    if (!c.writable) {
        return fail(readOnlyError(c.path));
    }
    Result<Transaction> transaction = Transaction::begin(c.database);
    if (!transaction) {
        return fail(transaction.error());
    }
    const Result<Book> now = readRecords(c.database);
    if (!now) {
        return fail(now.error());
    }
    const std::int64_t made = c.counters.editNumber;
    const LayerTriggers allowed(c.database);
    if (Result<void> done = writeDerivedTables(c.database, *now, reductions, made); !done) {
        return done;
    }
    if (Result<void> committed = transaction->commit(); !committed) {
        return committed;
    }
    c.counters.derivedFrom = made;
    return {};
}

bool BookFile::derivedIsStale() const {
    return connection_->counters.derivedFrom != connection_->counters.editNumber;
}

Result<bool> BookFile::changedElsewhere() {
    const std::int64_t before = connection_->dataVersion;
    if (Result<void> noted = connection_->noteDataVersion(); !noted) {
        return fail(noted.error());
    }
    return connection_->dataVersion != before;
}

Result<void> BookFile::copyTo(const fs::path& target) {
    const fs::path absolute = fs::absolute(target).lexically_normal();
    const Result<fs::path> draft = draftFor(absolute);
    if (!draft) {
        return fail(draft.error());
    }
    Database& database = connection_->database;
    const auto copy = [&]() -> Result<void> {
        Result<Statement> vacuum = database.prepare("VACUUM INTO ?");
        if (!vacuum) {
            return fail(vacuum.error());
        }
        vacuum->bind(1, std::string_view(draft->native()));
        return vacuum->run();
    };
    // Writing is forbidden on a connection that only reads, even into another file.
    if (Result<void> free = database.execute("PRAGMA query_only = OFF"); !free) {
        return free;
    }
    const Result<void> copied = copy();
    Result<void> closed;
    if (!connection_->writable) {
        closed = database.execute("PRAGMA query_only = ON");
    }
    if (!copied || !closed) {
        std::error_code ignored;
        fs::remove(*draft, ignored);
        const Error& error = copied ? closed.error() : copied.error();
        return fail(
            {error.fault,
             "The copy " + namedFile(absolute) + " could not be made. " + error.message,
             error.context});
    }
    return publishDraft(*draft, absolute);
}

std::string BookFile::integrity() {
    return integrityOf(connection_->database);
}

} // namespace bedlore
