// SPDX-License-Identifier: MIT
#include "core/io/book_upgrade.hpp"

#include "core/io/book_connection.hpp"
#include "core/io/book_file.hpp"
#include "core/io/book_inspection.hpp"
#include "core/io/geopackage_schema.hpp"
#include "core/io/new_file.hpp"

#include <system_error>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

Result<void> applySteps(Database& database, int from, const BookFormats& formats) {
    for (int format = from; format < formats.newest; ++format) {
        const UpgradeStep* next = nullptr;
        for (const UpgradeStep& step : formats.steps) {
            next = step.from == format ? &step : next;
        }
        if (next == nullptr) {
            return fail(inputError(
                "\"" + database.fileName() + "\" is of format " + std::to_string(format) +
                ", which this program cannot bring up to date. Open it with a Bedlore that can, or "
                "use a copy of it from before."));
        }
        if (Result<void> done = next->apply(database); !done) {
            return done;
        }
    }
    return {};
}

Result<void> upgradeDraft(const fs::path& draft, int from, const BookFormats& formats) {
    Result<Database> database = Database::open(draft, Database::Mode::ReadWrite);
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
    if (Result<void> done = applySteps(*database, from, formats); !done) {
        return done;
    }
    Result<BookCounters> counters = readCounters(*database);
    if (!counters) {
        return fail(counters.error());
    }
    counters->format = formats.newest;
    counters->derivedFrom.reset();
    if (Result<BookDigests> sealed = sealAll(*database, *counters); !sealed) {
        return fail(sealed.error());
    }
    return transaction->commit();
}

/// `NAME.vN.gpkg`, or with a number behind where another book has that name.
fs::path oldName(const fs::path& path, int from, int attempt) {
    fs::path name = path.stem();
    name += ".v" + std::to_string(from) + (attempt > 1 ? "-" + std::to_string(attempt) : "");
    name += path.extension();
    return path.parent_path() / name;
}

/// Gives the file at `path` the second name `kept`; on a disk where a file has one name, copies it.
std::error_code keepAs(const fs::path& path, const fs::path& kept) {
    std::error_code error;
    fs::create_hard_link(path, kept, error);
    if (error == std::errc::file_exists || !error) {
        return error;
    }
    error.clear();
    fs::copy_file(path, kept, error);
    return error;
}

} // namespace

const BookFormats& bookFormats() {
    static const BookFormats formats{.newest = bookFormat, .steps = {}};
    return formats;
}

Result<void>
writeUpgraded(Database& old, const fs::path& draft, int from, const BookFormats& formats) {
    Result<void> done = vacuumInto(old, draft);
    if (done) {
        done = upgradeDraft(draft, from, formats);
    }
    if (!done) {
        std::error_code ignored;
        fs::remove(draft, ignored);
    }
    return done;
}

Result<fs::path> putInPlace(const fs::path& draft, const fs::path& path, int from) {
    constexpr int attempts = 1000;
    std::error_code error;
    fs::path kept;
    for (int attempt = 1; attempt < attempts; ++attempt) {
        kept = oldName(path, from, attempt);
        error = keepAs(path, kept);
        // A program that was stopped right after this step has kept it already.
        std::error_code ignored;
        if (error == std::errc::file_exists && fs::equivalent(path, kept, ignored)) {
            error.clear();
        }
        if (error != std::errc::file_exists) {
            break;
        }
    }
    if (!error) {
        error = replaceByDraft(draft, path);
    }
    if (error) {
        std::error_code ignored;
        fs::remove(draft, ignored);
        return fail(machineError(
            namedFile(path) + " is of an older format, and there was no room to bring it up to "
                              "date beside it. It was left as it is.",
            error.message()));
    }
    return kept;
}

} // namespace bedlore
