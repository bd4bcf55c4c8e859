// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/contract.hpp"
#include "core/book/cast.hpp"
#include "core/book/fix_set.hpp"
#include "core/book/hazard.hpp"
#include "core/book/imported_file.hpp"
#include "core/book/kit.hpp"
#include "core/book/log_entry.hpp"
#include "core/book/mark.hpp"
#include "core/book/page.hpp"
#include "core/book/reading.hpp"
#include "core/book/spot.hpp"
#include "core/book/swim.hpp"
#include "core/book/table.hpp"
#include "core/book/visit.hpp"
#include "core/book/water.hpp"

#include <string>
#include <tuple>
#include <vector>

// Everything that he measured, as he measured it.

namespace bedlore {

/// All records that a book holds, parents before children: a list of types that storage, edits and
/// tests run over.
template <class... Records>
struct RecordTypes {};

using AllRecords = RecordTypes<
    ImportedFile,
    Water,
    Swim,
    Mark,
    Photo,
    Rod,
    Reel,
    Kit,
    Visit,
    Aim,
    Cast,
    Reading,
    FixSet,
    Spot,
    LogEntry,
    Hazard,
    Page,
    PageLine,
    Word,
    Answer>;

namespace detail {
template <class List>
struct TablesOf;
template <class... Records>
struct TablesOf<RecordTypes<Records...>> {
    using type = std::tuple<Table<Records>...>;
};
} // namespace detail

/// A value: copying it is cheap, and a copy is a snapshot that no later edit touches.
class Book {
public:
    template <class Record>
    [[nodiscard]] const Table<Record>& all() const {
        return std::get<Table<Record>>(tables_);
    }
    template <class Record>
    [[nodiscard]] Table<Record>& all() {
        return std::get<Table<Record>>(tables_);
    }
    /// Null where there is none.
    template <class Record>
    [[nodiscard]] const Record* find(Id<Record> id) const {
        return all<Record>().find(id);
    }
    /// The record must be there.
    template <class Record>
    [[nodiscard]] const Record& get(Id<Record> id) const {
        const Record* record = find(id);
        BEDLORE_EXPECTS(record != nullptr);
        return *record;
    }

    friend bool operator==(const Book&, const Book&) = default;

private:
    detail::TablesOf<AllRecords>::type tables_;
};

/// Null where there is none of that name. Names compare without regard to letter case.
[[nodiscard]] const Water* findWater(const Book& book, const std::string& name);
[[nodiscard]] const Swim* findSwim(const Book& book, Id<Water> water, const std::string& name);
[[nodiscard]] const Visit* findVisit(const Book& book, Id<Swim> swim, Date date);
[[nodiscard]] const Reel* findReel(const Book& book, const std::string& name);

/// In the order that he fished them: visits by date then entry, casts and readings by their own
/// order.
[[nodiscard]] std::vector<const Swim*> swimsOf(const Book& book, Id<Water> water);
[[nodiscard]] std::vector<const Visit*> visitsOf(const Book& book, Id<Water> water);
[[nodiscard]] std::vector<const Cast*> castsOf(const Book& book, Id<Visit> visit);
[[nodiscard]] std::vector<const Reading*> readingsOf(const Book& book, Id<Cast> cast);
[[nodiscard]] std::vector<const Aim*> aimsOf(const Book& book, Id<Visit> visit);
[[nodiscard]] std::vector<const PageLine*> linesOf(const Book& book, Id<Page> page);

} // namespace bedlore
