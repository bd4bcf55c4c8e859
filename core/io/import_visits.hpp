// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/io/csv_readings.hpp"
#include "core/io/import_faults.hpp"

#include <deque>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

// The visits and casts that the rows of a file of readings belong to.

namespace bedlore {

/// A cast of the book or of this file. `line` is where the file first says it, 0 for the book.
struct CastWork {
    Cast cast;
    std::optional<North> north;
    std::string aim; ///< its label, where it has one
    int line = 0;
    int nextReading = 1; ///< order of the next reading on it
    bool changed = false;
};

/// A visit of the book or of this file. A new one has no id before it is used.
struct VisitWork {
    Visit visit;
    bool isNew = false;
    bool changed = false;
    bool used = false;
    bool wrapsAssumed = false;
    int nextCast = 1; ///< order of the next cast on it
    std::string swimName;
    std::optional<Id<Swim>> swim;                     ///< none for a swim that is not in the book
    std::unordered_map<std::string, CastWork*> named; ///< casts by name
    std::unordered_map<std::string, Id<Aim>> aims;    ///< by label
    std::vector<Aim> newAims;
    int nextAim = 1; ///< order of the next aim of it
};

/// Found once and then kept, so that a long file costs no more for each row than a short one.
class VisitList {
public:
    VisitList(const Book& book, const Water& water, FaultList& faults);

    /// The visit of a row's swim and date. Stays where it is.
    [[nodiscard]] VisitWork& visitFor(const ReadingRow& row);
    /// Gives the visit what the row says of it. The first value that a visit is given stays: false,
    /// with the fault noted, for a row that says another.
    [[nodiscard]] bool takeValues(const ReadingRow& row, VisitWork& work);

    [[nodiscard]] CastWork& addCast() { return casts_.emplace_back(); }
    [[nodiscard]] std::deque<VisitWork>& visits() { return visits_; }
    [[nodiscard]] std::deque<CastWork>& casts() { return casts_; }

private:
    void open(VisitWork& work, const ReadingRow& row);
    void openCasts(VisitWork& work);
    [[nodiscard]] bool sameLevel(const Entered& a, const Entered& b) const;

    const Book& book_;
    const Water& water_;
    FaultList& faults_;
    std::deque<VisitWork> visits_; // deques: addresses stay while they grow
    std::deque<CastWork> casts_;
    std::unordered_map<std::string, VisitWork*> byKey_;
    std::unordered_map<std::string, Id<Swim>> swimByName_;
    std::map<std::pair<Id<Swim>, Date>, Id<Visit>> visitBySwimAndDate_;
    std::unordered_map<Id<Cast>, int> lastReading_; ///< highest order on each cast of the book
};

} // namespace bedlore
