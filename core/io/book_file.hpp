// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

// The book on the disk: one GeoPackage, every edit one durable transaction.

namespace bedlore {

class BookConnection;
struct BookFormats;

enum class BookAccess : std::uint8_t { ReadWrite, ReadOnly };

/// An open book. Holds a lock beside the file as long as it is open for writing; a second opener
/// gets read-only access and `notices` say so. Movable, not copyable. Not safe to use from two
/// threads at once.
class BookFile {
public:
    /// Makes a new, empty book. Fails if something is already there.
    [[nodiscard]] static Result<BookFile> create(const std::filesystem::path& path);
    /// Opens a book, recovering a write that was cut off. Fails in a sentence for what is not a
    /// book, a newer one, a damaged one.
    [[nodiscard]] static Result<BookFile>
    open(const std::filesystem::path& path, BookAccess access = BookAccess::ReadWrite);
    /// As a program would that reads `formats`. A book of an older format is brought up to date on
    /// a copy; the old file stays beside it as `NAME.vN.gpkg`. Who may not write to it gets the
    /// copy to read.
    [[nodiscard]] static Result<BookFile>
    open(const std::filesystem::path& path, BookAccess access, const BookFormats& formats);

    BookFile(BookFile&&) noexcept;
    BookFile& operator=(BookFile&&) noexcept;
    ~BookFile();

    [[nodiscard]] const std::filesystem::path& path() const;
    /// The records as they were when the book was opened or last caught up with; later edits are
    /// the caller's to keep.
    [[nodiscard]] const Book& book() const;
    /// The first id not yet given in this book, ever.
    [[nodiscard]] std::int64_t nextId() const;
    [[nodiscard]] bool isWritable() const;
    /// Sentences about the opening: a recovered write, another program that holds it or has changed
    /// it, an upgrade.
    [[nodiscard]] const std::vector<std::string>& notices() const;

    /// Writes `edits`, which lead from the stored book to the caller's next one, as one durable
    /// transaction together with `nextId`. On return they are on the disk; on failure nothing
    /// changed. Fails as long as another program has changed records that were not caught up with.
    /// Stopped in between, it changes nothing either; the commit itself is not stopped.
    [[nodiscard]] Result<void>
    write(const Edits& edits, std::int64_t nextId, const Progress& progress = {});

    /// Number of edits written in the book's life; what was derived carries the number that it was
    /// made from.
    [[nodiscard]] std::int64_t editNumber() const;
    /// Writes the tables for other programs (soundings, cast lines, swims) made from the book as it
    /// stands. Stopped in between, it leaves those that were there.
    [[nodiscard]] Result<void>
    writeDerived(const std::vector<Reduction>& reductions, const Progress& progress = {});
    /// Whether those tables were made from an earlier state of the book, or never.
    [[nodiscard]] bool derivedIsStale() const;
    /// Looks whether another program changed records since the book was opened or last caught up
    /// with. If so, `book` and `nextId` are as the file has them now. Fails where the file that is
    /// written to was moved, removed or replaced.
    [[nodiscard]] Result<bool> catchUp();
    /// Gives up the lock and with it the right to write, for good.
    void stopWriting();
    /// A complete copy under another name (it must not exist).
    [[nodiscard]] Result<void> copyTo(const std::filesystem::path& target);
    /// "ok", or what is wrong with the file and its records.
    [[nodiscard]] std::string integrity();

private:
    explicit BookFile(std::unique_ptr<BookConnection> connection);
    std::unique_ptr<BookConnection> connection_;
};

/// The format that this program writes; books of a higher one are refused.
inline constexpr int bookFormat = 1;

} // namespace bedlore
