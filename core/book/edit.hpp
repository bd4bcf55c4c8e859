// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/change.hpp"

#include <cstdint>
#include <utility>
#include <variant>
#include <vector>

// Every possible edit of a book and its exact inverse.

namespace bedlore {

/// Puts a record in, or in place of the one with its id. Its id must be valid; what it points at
/// must be there.
template <class Record>
struct Put {
    Record record;
    friend bool operator==(const Put&, const Put&) = default;
};

/// Takes a record out. Nothing may point at it any more.
template <class Record>
struct Remove {
    Id<Record> id;
    friend bool operator==(const Remove&, const Remove&) = default;
};

namespace detail {
template <class List>
struct EditVariant;
template <class... Records>
struct EditVariant<RecordTypes<Records...>> {
    using type = std::variant<Put<Records>..., Remove<Records>...>;
};
} // namespace detail

/// One edit: a variant of `Put` and `Remove` over every type of record. Holds ids and values, never
/// pointers, so it can be kept, stored and replayed. How it is copied, moved, compared and
/// destroyed stands in the source: spelled out anew in every file that holds edits, those of so
/// large a variant cost seconds of compiling each.
class Edit : public detail::EditVariant<AllRecords>::type {
public:
    using Kinds = detail::EditVariant<AllRecords>::type;

    template <class Record>
    Edit(Put<Record> edit) noexcept // NOLINT(google-explicit-constructor): as a variant's own
        : Kinds(std::in_place_type<Put<Record>>, std::move(edit)) {}
    template <class Record>
    Edit(Remove<Record> edit) noexcept // NOLINT(google-explicit-constructor): as a variant's own
        : Kinds(std::in_place_type<Remove<Record>>, edit) {}
    Edit(const Edit&);
    Edit(Edit&&) noexcept;
    Edit& operator=(const Edit&);
    Edit& operator=(Edit&&) noexcept;
    ~Edit();

    friend bool operator==(const Edit& a, const Edit& b);
};

/// Edits that are one act of the angler's: all of them happen or none.
using Edits = std::vector<Edit>;

/// What `applyEdits` gives: the new book, the edits that lead back to the old one exactly, and what
/// changed.
struct Applied {
    Book book;
    Edits inverse;
    Change change;
    /// Records that were gone through to see whether something taken out is still pointed at: the
    /// book once for each removal, or once for all where there are many.
    std::size_t lookedThrough = 0;
};

/// The book after `edits` in their order. Fails, with the book untouched, when a record would point
/// at one that is not there or when something taken out is still pointed at.
[[nodiscard]] Result<Applied> applyEdits(const Book& book, const Edits& edits);

/// Whether any other record points at this one.
[[nodiscard]] bool isUsed(const Book& book, const AnyId& id);

/// The largest id that `edits` mention; ids above it are free. Zero for none.
[[nodiscard]] std::int64_t largestId(const Edits& edits);

/// Removes `visit` (or cast, page …) with everything that points at it, children first.
template <class Record>
[[nodiscard]] Edits removalWithDependents(const Book& book, Id<Record> id);

} // namespace bedlore
