// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit.hpp"

#include <cstddef>
#include <utility>
#include <variant>

// Edits being put together, with the book as it will be after them.

namespace bedlore {

/// Collects edits of a book and keeps the book that they lead to at hand, so that later steps see
/// what earlier ones made. Putting what is already there, equal in every field, makes no edit; nor
/// does changing a record and changing it back.
class EditPlan {
public:
    EditPlan(const Book& book, IdSource& ids)
        : original_(book)
        , book_(book)
        , ids_(ids) {}

    [[nodiscard]] const Book& book() const { return book_; }

    template <class Record>
    [[nodiscard]] Id<Record> newId() {
        return ids_.take<Record>();
    }

    template <class Record>
    void put(Record record) {
        const Record* before = book_.find(record.id);
        if (before != nullptr && *before == record) {
            return;
        }
        const Record* original = before != nullptr ? original_.find(record.id) : nullptr;
        const bool isBack =
            original != nullptr && !isPutAfterDropping(record.id) && *original == record;
        if (!isBack) {
            edits_.emplace_back(Put<Record>{record});
        }
        book_.all<Record>().put(std::move(record));
    }

    /// Gives a new record its id and puts it.
    template <class Record>
    Id<Record> add(Record record) {
        record.id = newId<Record>();
        const Id<Record> id = record.id;
        put(std::move(record));
        return id;
    }

    /// False, and nothing done, where it is not there or something still points at it.
    template <class Record>
    bool removeIfUnused(Id<Record> id) {
        if (book_.find(id) == nullptr || isUsed(book_, AnyId(id))) {
            return false;
        }
        edits_.emplace_back(Remove<Record>{id});
        book_.all<Record>().remove(id);
        return true;
    }

    [[nodiscard]] Edits takeEdits() { return std::move(edits_); }

private:
    static bool isRemoval(const Edit& edit) {
        return edit.index() >= std::variant_size_v<Edit::Kinds> / 2;
    }

    /// Drops the earlier edit of a record that is changed again; whether one remains. It does where
    /// something was removed since, which may have had to wait for that change.
    template <class Record>
    bool isPutAfterDropping(Id<Record> id) {
        bool removedSince = false;
        for (std::size_t i = edits_.size(); i-- > 0;) {
            const auto* put = std::get_if<Put<Record>>(&edits_[i]);
            removedSince = removedSince || isRemoval(edits_[i]);
            if (put != nullptr && put->record.id == id) {
                if (removedSince) {
                    return true;
                }
                edits_.erase(edits_.begin() + static_cast<std::ptrdiff_t>(i));
                return isPutAfterDropping(id);
            }
        }
        return false;
    }

    Book original_;
    Book book_;
    IdSource& ids_;
    Edits edits_;
};

} // namespace bedlore
