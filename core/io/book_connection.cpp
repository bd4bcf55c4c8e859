// SPDX-License-Identifier: MIT
#include "core/io/book_connection.hpp"

#include "core/io/book_inspection.hpp"
#include "core/io/derived_tables.hpp"
#include "core/io/geopackage_geometry.hpp"
#include "core/io/schema_guard.hpp"

#include <algorithm>
#include <limits>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

Error readOnlyError(const fs::path& path) {
    return machineError(
        namedFile(path) + " is open for reading only. Nothing was changed. Close it "
                          "elsewhere and open it again, or work in a copy.");
}

Error changedByAnother(const fs::path& path, std::string context) {
    return machineError(
        "Another program has written to " + namedFile(path) +
            ", so nothing was kept. Try once more.",
        std::move(context));
}

/// What the file's header will count after the transaction that is open; none where a log is
/// written.
Result<std::optional<std::int64_t>> countAfterThis(const Database& database) {
    const Result<FileChanges> changes = database.fileChanges();
    if (!changes) {
        return fail(changes.error());
    }
    if (changes->hasLog) {
        return std::nullopt;
    }
    const std::uint32_t next = changes->count + 1; // from its largest value back to zero
    return std::int64_t{next};
}

/// The digests are those of the rows that are kept, also where the memory runs out in between.
class UnlessKept {
public:
    explicit UnlessKept(BookDigests& digests)
        : digests_(digests) {}
    ~UnlessKept() { digests_.takeBack(); }
    UnlessKept(const UnlessKept&) = delete;
    UnlessKept& operator=(const UnlessKept&) = delete;
    UnlessKept(UnlessKept&&) = delete;
    UnlessKept& operator=(UnlessKept&&) = delete;

private:
    BookDigests& digests_;
};

Result<void> storeAllSums(Database& database, const BookDigests& digests) {
    for (const std::string_view table : recordTableNames()) {
        if (Result<void> done = storeSum(database, table, digests.sumOf(table)); !done) {
            return done;
        }
    }
    return {};
}

/// What `work` comes to; where it was stopped that is said, whatever its statements came to.
template <class Work>
Result<void> unlessStopped(Database& database, const Progress& progress, const Work& work) {
    const StopsStatements stops(database, progress);
    Result<void> done = work();
    return progress.cancelled() ? fail(cancelledError()) : std::move(done);
}

} // namespace

Result<void> guardConnection(Database& database) {
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

Result<void> vacuumInto(Database& database, const fs::path& target) {
    const auto copy = [&]() -> Result<void> {
        Result<Statement> vacuum = database.prepare("VACUUM INTO ?");
        if (!vacuum) {
            return fail(vacuum.error());
        }
        vacuum->bind(1, std::string_view(target.native()));
        return vacuum->run();
    };
    Result<void> copied = copy();
    if (!copied) {
        std::error_code ignored;
        fs::remove(target, ignored);
    }
    return copied;
}

Result<BookDigests> sealAll(Database& database, BookCounters counters) {
    Result<StoredRecords> stored = readRecords(database);
    if (!stored) {
        return fail(stored.error());
    }
    const auto count = countAfterThis(database);
    if (!count) {
        return fail(count.error());
    }
    counters.changeCount = *count;
    if (Result<void> done = storeAllSums(database, stored->digests); !done) {
        return fail(done.error());
    }
    if (Result<bool> done = storeCounters(database, counters, counters.editNumber); !done) {
        return fail(done.error());
    }
    return std::move(stored->digests);
}

namespace {

/// The header of a copy counts anew, so the copy is sealed anew. Gives what it holds.
Result<BookDigests> sealCopy(const fs::path& draft) {
    Result<Database> copy = Database::open(draft, Database::Mode::ReadWrite);
    if (!copy) {
        return fail(copy.error());
    }
    if (Result<void> guarded = guardConnection(*copy); !guarded) {
        return fail(guarded.error());
    }
    Result<Transaction> transaction = Transaction::begin(*copy);
    if (!transaction) {
        return fail(transaction.error());
    }
    const Result<BookCounters> read = readCounters(*copy);
    if (!read) {
        return fail(read.error());
    }
    Result<BookDigests> sealed = sealAll(*copy, *read);
    if (!sealed) {
        return sealed;
    }
    if (Result<void> committed = transaction->commit(); !committed) {
        return fail(committed.error());
    }
    return sealed;
}

} // namespace

BookConnection::BookConnection(fs::path filePath, std::optional<BookLock> held, Database opened)
    : path(std::move(filePath))
    , lock(std::move(held))
    , database(std::move(opened))
    , writer_(database) {}

Result<void> BookConnection::load(int newestFormat) {
    newestFormat_ = newestFormat;
    if (Result<void> begun = database.execute("BEGIN"); !begun) {
        return begun;
    }
    Result<void> done = loadInside(newestFormat);
    Result<void> ended = database.execute("COMMIT");
    return done ? ended : done;
}

Result<void> BookConnection::loadInside(int newestFormat) {
    if (Result<int> format = checkIsBook(database, newestFormat); !format) {
        return fail(format.error());
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
    if (Result<void> complete = checkLastPage(database, path); !complete) {
        return complete;
    }
    const Result<BookCounters> read = readCounters(database);
    if (!read) {
        return fail(read.error());
    }
    Result<StoredRecords> records = readRecords(database);
    if (!records) {
        return fail(records.error());
    }
    const Result<SumsFound> sums = compareSums(database, *read, records->digests);
    if (!sums) {
        return fail(sums.error());
    }
    if (sums->areDamage()) {
        return fail(damagedTables(path, sums->different));
    }
    const Result<std::int64_t> version = database.integer("PRAGMA data_version");
    if (!version) {
        return fail(version.error());
    }
    counters = *read;
    book = std::move(records->book);
    digests_ = std::move(records->digests);
    sumsAreStale_ = !sums->different.empty();
    changedTables = sums->different;
    std::erase(changedTables, metaTableName);
    dataVersion_ = *version;
    mustLook_ = false;
    // Rows that another program added took ids without asking the counter.
    counters.nextId = std::max(counters.nextId, firstFreeId(book));
    if (counters.nextId > largestCounter) {
        return fail(damagedCounters(database));
    }
    return {};
}

Result<void> BookConnection::chooseMode() {
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

/// Inside a transaction, so that nobody can come between. What others added beside the records, a
/// spatial index for one, is no matter.
Result<void> BookConnection::expectNobodyElse() {
    const Result<std::int64_t> version = database.integer("PRAGMA data_version");
    if (!version) {
        return fail(version.error());
    }
    if (*version == dataVersion_) {
        return {};
    }
    const Result<StoredRecords> now = readRecords(database);
    if (!now) {
        return fail(now.error());
    }
    if (!digests_.difference(now->digests).empty()) {
        return fail(changedByAnother(path, "rows"));
    }
    dataVersion_ = *version;
    return {};
}

/// Check sums and counters, so that they always change with the rows.
Result<void>
BookConnection::seal(BookCounters& next, const std::vector<std::string_view>& touched) {
    const auto count = countAfterThis(database);
    if (!count) {
        return fail(count.error());
    }
    next.changeCount = *count;
    for (const std::string_view table : sumsAreStale_ ? recordTableNames() : touched) {
        if (Result<void> done = storeSum(database, table, digests_.sumOf(table)); !done) {
            return done;
        }
    }
    const Result<bool> stored = storeCounters(database, next, counters.editNumber);
    if (!stored) {
        return fail(stored.error());
    }
    return *stored ? Result<void>{} : fail(changedByAnother(path, "edit number"));
}

Result<void>
BookConnection::writeInside(const Edits& edits, BookCounters& next, const Progress& progress) {
    if (Result<void> alone = expectNobodyElse(); !alone) {
        return alone;
    }
    std::set<std::string_view> touched;
    for (std::size_t i = 0; i < edits.size(); ++i) {
        constexpr std::size_t between = 1024; // reports
        if (i % between == 0) {
            progress.at(static_cast<double>(i) / static_cast<double>(edits.size()));
        }
        if (Result<void> done = writer_.write(edits[i], digests_); !done) {
            return done;
        }
        touched.insert(tableOf(edits[i]));
    }
    Result<Statement> date = database.prepare(
        "UPDATE gpkg_contents SET last_change = strftime('%Y-%m-%dT%H:%M:%fZ', 'now') "
        "WHERE table_name = ?");
    if (!date) {
        return fail(date.error());
    }
    for (const std::string_view table : touched) {
        date->bind(1, table);
        if (Result<void> done = date->run(); !done) {
            return done;
        }
    }
    return seal(next, {touched.begin(), touched.end()});
}

Result<void>
BookConnection::write(const Edits& edits, std::int64_t nextId, const Progress& progress) {
    if (!writable) {
        return fail(readOnlyError(path));
    }
    if (mustLook_) {
        const Result<bool> news = catchUp();
        if (!news || *news) {
            return fail(news ? changedByAnother(path, "an unsure commit") : news.error());
        }
    }
    BookCounters next = counters;
    next.nextId = std::max({counters.nextId, nextId, largestId(edits) + 1});
    ++next.editNumber;
    Result<Transaction> transaction = Transaction::begin(database);
    if (!transaction) {
        return fail(transaction.error());
    }
    const UnlessKept takesBack(digests_);
    Result<void> done =
        unlessStopped(database, progress, [&] { return writeInside(edits, next, progress); });
    if (done) {
        done = transaction->commit();
        mustLook_ = !done;
    }
    if (!done) {
        return done;
    }
    digests_.keep();
    counters = next;
    sumsAreStale_ = false;
    return {};
}

Result<void>
BookConnection::writeDerived(const std::vector<Reduction>& reductions, const Progress& progress) {
    if (!writable) {
        return fail(readOnlyError(path));
    }
    Result<Transaction> transaction = Transaction::begin(database);
    if (!transaction) {
        return fail(transaction.error());
    }
    if (Result<void> alone = expectNobodyElse(); !alone) {
        return alone;
    }
    const Result<StoredRecords> now = readRecords(database);
    if (!now) {
        return fail(now.error());
    }
    BookCounters next = counters;
    next.derivedFrom = counters.editNumber;
    const LayerTriggers allowed(database);
    Result<void> done = unlessStopped(database, progress, [&] {
        return writeDerivedTables(database, now->book, reductions, progress);
    });
    if (done) {
        done = seal(next, {});
    }
    if (done) {
        done = transaction->commit();
        mustLook_ = mustLook_ || !done;
    }
    if (!done) {
        return done;
    }
    counters = next;
    sumsAreStale_ = false;
    return {};
}

void BookConnection::stopWriting() {
    writable = false;
    lock.reset();
    const Result<void> chosen = chooseMode(); // `writable` stands in the way of a write too
    static_cast<void>(chosen);
}

Result<bool> BookConnection::catchUp() {
    if (writable && database.hasMoved()) {
        return fail(movedError(database.fileName()));
    }
    const Result<std::int64_t> version = database.integer("PRAGMA data_version");
    if (!version) {
        return fail(version.error());
    }
    if (*version == dataVersion_ && !mustLook_) {
        return false;
    }
    const BookDigests before = digests_;
    if (Result<void> loaded = load(newestFormat_); !loaded) {
        return fail(loaded.error());
    }
    return !before.difference(digests_).empty();
}

Result<void> BookConnection::copyTo(const fs::path& draft) {
    // Writing is forbidden on a connection that only reads, even into another file.
    if (Result<void> free = database.execute("PRAGMA query_only = OFF"); !free) {
        return free;
    }
    Result<void> copied = vacuumInto(database, draft);
    if (!writable) {
        if (Result<void> closed = database.execute("PRAGMA query_only = ON"); !closed) {
            return closed;
        }
    }
    if (!copied) {
        return copied;
    }
    const Result<BookDigests> sealed = sealCopy(draft);
    if (!sealed) {
        return fail(sealed.error());
    }
    const Result<std::int64_t> version = database.integer("PRAGMA data_version");
    const std::vector<std::string> different = digests_.difference(*sealed);
    const bool isOurs = version && *version == dataVersion_ && !mustLook_;
    return different.empty() || !isOurs ? Result<void>{} : fail(damagedTables(path, different));
}

std::string BookConnection::integrity() {
    if (Result<void> begun = database.execute("BEGIN"); !begun) {
        return begun.error().message;
    }
    std::string found = integrityOf(database, path);
    const Result<void> ended = database.execute("COMMIT");
    return ended ? found : ended.error().message;
}

} // namespace bedlore
