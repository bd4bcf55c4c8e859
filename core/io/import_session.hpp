// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/io/csv_fixes.hpp"
#include "core/io/csv_readings.hpp"
#include "core/io/csv_swims.hpp"
#include "core/io/formats.hpp"
#include "core/io/import.hpp"
#include "core/io/import_faults.hpp"
#include "core/io/shoreline_file.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

// An import under way: what the files say, and the book as it grows from one to the next.

namespace bedlore {

/// A notebook page, its lines word for word.
struct PageText {
    std::vector<std::string> lines;
    std::optional<Date> date; ///< of its first `date` line that names a day
};

/// A file read, before it meets the book.
struct ParsedFile {
    ImportKind kind = ImportKind::Page;
    std::string name = {};
    std::string sha256 = {};
    FaultList faults;
    std::vector<std::string> notices = {};
    std::variant<std::monostate, SwimRows, ReelRows, ReadingRows, FixRows, ShoreOutlines, PageText>
        content = {};
};

/// The book as it will be. Every step of an import sees what the steps before it made.
class ImportSession {
public:
    ImportSession(Book book, std::int64_t nextId)
        : book_(std::move(book))
        , ids_(nextId) {}

    [[nodiscard]] const Book& book() const { return book_; }
    [[nodiscard]] IdSource& ids() { return ids_; }
    [[nodiscard]] Id<Water> waterId() const { return water_; }
    [[nodiscard]] const Water& water() const { return book_.get(water_); }
    void setWater(Id<Water> water) { water_ = water; }

    /// Adds `edits` to the plan and to the book.
    [[nodiscard]] Result<void> apply(Edits edits);
    template <class Record>
    [[nodiscard]] Result<void> put(Record record) {
        Edits edits;
        edits.emplace_back(Put<Record>{std::move(record)});
        return apply(std::move(edits));
    }

    void assume(std::string sentence) { assumed_.push_back(std::move(sentence)); }
    void notice(std::string sentence);

    [[nodiscard]] Edits& edits() { return edits_; }
    [[nodiscard]] std::vector<std::string>& assumed() { return assumed_; }
    [[nodiscard]] std::vector<std::string>& notices() { return notices_; }

private:
    Book book_;
    IdSource ids_;
    Id<Water> water_;
    Edits edits_;
    std::vector<std::string> assumed_;
    std::vector<std::string> notices_;
};

// Each puts the good rows of a file into the session's book and adds what does not fit it to the
// file's faults. `file` is the record of the file itself, already in the book.

[[nodiscard]] Result<void> planReels(ImportSession& session, ParsedFile& file);
[[nodiscard]] Result<void> planSwims(ImportSession& session, ParsedFile& file);
[[nodiscard]] Result<void>
planReadings(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file);
[[nodiscard]] Result<void>
planFixes(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file);
[[nodiscard]] Result<void> planShoreline(ImportSession& session, ParsedFile& file);
[[nodiscard]] Result<void>
planPage(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file);

/// Sets the plane's origin from the swims with latitude and longitude, once all of an import are
/// in.
[[nodiscard]] Result<void> setOriginFromSwims(ImportSession& session);

} // namespace bedlore
