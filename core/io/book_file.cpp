// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"

#include "core/io/book_connection.hpp"
#include "core/io/book_inspection.hpp"
#include "core/io/book_lock.hpp"
#include "core/io/book_upgrade.hpp"
#include "core/io/new_file.hpp"

#include <cerrno>
#include <cstdlib>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

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

Result<void> makeEmptyBook(const fs::path& draft) {
    Result<Database> database = Database::open(draft, Database::Mode::Create);
    if (!database) {
        return fail(database.error());
    }
    if (Result<void> guarded = guardConnection(*database); !guarded) {
        return guarded;
    }
    Result<Transaction> transaction = Transaction::begin(*database);
    if (!transaction) {
        return fail(transaction.error());
    }
    if (Result<void> made = createGeoPackage(*database); !made) {
        return made;
    }
    if (Result<BookDigests> sealed = sealAll(*database, {.format = bookFormat}); !sealed) {
        return fail(sealed.error());
    }
    return transaction->commit();
}

Result<Database> openGuarded(const fs::path& path, Database::Mode mode) {
    Result<Database> database = Database::open(path, mode);
    if (!database) {
        return database;
    }
    if (Result<void> guarded = guardConnection(*database); !guarded) {
        return fail(guarded.error());
    }
    return database;
}

/// Of the book's tables, 1 for the first.
Result<int> formatOf(Database& database, int newest) {
    if (Result<void> begun = database.execute("BEGIN"); !begun) {
        return fail(begun.error());
    }
    Result<int> format = checkIsBook(database, newest);
    if (Result<void> ended = database.execute("COMMIT"); format && !ended) {
        return fail(ended.error());
    }
    return format;
}

/// Brings the older book in `database` up to date in its place, and opens what came of it. Gives
/// the sentence about it.
Result<std::string>
upgradeInPlace(Database& database, const fs::path& path, int format, const BookFormats& formats) {
    const Result<fs::path> draft =
        draftFor(path.parent_path() / (path.filename().string() + ".upgrade"));
    if (!draft) {
        return fail(draft.error());
    }
    const Result<std::int64_t> before = database.integer("PRAGMA data_version");
    if (Result<void> written = writeUpgraded(database, *draft, format, formats); !written) {
        return fail(written.error());
    }
    const Result<std::int64_t> after = database.integer("PRAGMA data_version");
    if (!before || !after || *before != *after) {
        std::error_code ignored;
        fs::remove(*draft, ignored);
        return fail(machineError(
            "Another program is using " + namedFile(path) + ". Close it there and try again."));
    }
    const Result<fs::path> kept = putInPlace(*draft, path, format);
    if (!kept) {
        return fail(kept.error());
    }
    Result<Database> upgraded = openGuarded(path, Database::Mode::ReadWrite);
    if (!upgraded) {
        return fail(upgraded.error());
    }
    database = std::move(*upgraded);
    return namedFile(path) +
           " was of an older format and has been brought up to date. The old book is beside it "
           "as " +
           namedFile(*kept) + ".";
}

/// As `upgradeInPlace`, on a copy that nobody sees: for who may not write to the book.
Result<std::string>
upgradeAside(Database& database, const fs::path& path, int format, const BookFormats& formats) {
    std::error_code error;
    std::string folder = (fs::temp_directory_path(error) / "bedlore-XXXXXX").string();
    if (error || ::mkdtemp(folder.data()) == nullptr) {
        return fail(machineError(
            namedFile(path) +
            " is of an older format, and there is no place to bring a copy of it up to date."));
    }
    const fs::path draft = fs::path(folder) / path.filename();
    Result<void> done = writeUpgraded(database, draft, format, formats);
    Result<Database> upgraded =
        done ? openGuarded(draft, Database::Mode::ReadWrite) : Result<Database>(fail(done.error()));
    // The open file stays until it is closed; its name is in nobody's way.
    fs::remove_all(folder, error);
    if (!upgraded) {
        return fail(upgraded.error());
    }
    database = std::move(*upgraded);
    return namedFile(path) + " is of an older format. It is shown brought up to date; the file "
                             "itself was left as it is.";
}

std::string cutOffNotice(const fs::path& path) {
    return "The last write to " + namedFile(path) +
           " was cut off before it was finished and has been taken back. Everything that was "
           "shown as kept is here.";
}

/// What to say of how the book was found, once it has been read.
std::vector<std::string> noticesOf(const WriteRight& right, const fs::path& path, bool wasCutOff) {
    std::vector<std::string> notices;
    if (!right.notice.empty()) {
        notices.push_back(right.notice);
    }
    if (wasCutOff && !hasHotJournal(path)) {
        notices.push_back(cutOffNotice(path));
    }
    return notices;
}

std::string changedNotice(const fs::path& path, const std::vector<std::string>& tables) {
    return "Another program has changed " + namedFile(path) + " (" + namedTables(tables) +
           "). It is shown as it is now.";
}

} // namespace

BookFile::BookFile(std::unique_ptr<BookConnection> connection)
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
    if (const Result<void> made = makeEmptyBook(*draft); !made) {
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
    return open(path, access, bookFormats());
}

Result<BookFile>
BookFile::open(const fs::path& path, BookAccess access, const BookFormats& formats) {
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
        openGuarded(real, mayWrite ? Database::Mode::ReadWrite : Database::Mode::ReadOnly);
    if (!database) {
        return fail(database.error());
    }
    const Result<int> format = formatOf(*database, formats.newest);
    if (!format) {
        return fail(format.error());
    }
    std::vector<std::string> notices = noticesOf(right, real, wasCutOff);
    if (*format < formats.newest) {
        const auto upgrade = right.lock ? upgradeInPlace : upgradeAside;
        const Result<std::string> upgraded = upgrade(*database, real, *format, formats);
        if (!upgraded) {
            return fail(upgraded.error());
        }
        notices.push_back(*upgraded);
    }
    auto connection =
        std::make_unique<BookConnection>(real, std::move(right.lock), std::move(*database));
    connection->notices = std::move(notices);
    connection->writable = connection->lock.has_value();
    if (Result<void> loaded = connection->load(formats.newest); !loaded) {
        return fail(loaded.error());
    }
    if (!connection->changedTables.empty()) {
        connection->notices.push_back(changedNotice(real, connection->changedTables));
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

Result<void> BookFile::write(const Edits& edits, std::int64_t nextId, const Progress& progress) {
    return connection_->write(edits, nextId, progress);
}

Result<void>
BookFile::writeDerived(const std::vector<Reduction>& reductions, const Progress& progress) {
    return connection_->writeDerived(reductions, progress);
}

bool BookFile::derivedIsStale() const {
    return connection_->counters.derivedFrom != connection_->counters.editNumber;
}

Result<bool> BookFile::catchUp() {
    return connection_->catchUp();
}

void BookFile::stopWriting() {
    connection_->stopWriting();
}

Result<void> BookFile::copyTo(const fs::path& target) {
    const fs::path absolute = fs::absolute(target).lexically_normal();
    const Result<fs::path> draft = draftFor(absolute);
    if (!draft) {
        return fail(draft.error());
    }
    if (const Result<void> copied = connection_->copyTo(*draft); !copied) {
        std::error_code ignored;
        fs::remove(*draft, ignored);
        return fail(
            {copied.error().fault,
             "The copy " + namedFile(absolute) + " could not be made. " + copied.error().message,
             copied.error().context});
    }
    return publishDraft(*draft, absolute);
}

std::string BookFile::integrity() {
    return connection_->integrity();
}

} // namespace bedlore
