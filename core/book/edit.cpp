// SPDX-License-Identifier: MIT
#include "core/book/edit.hpp"

#include "core/book/references.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace bedlore {

Edit::Edit(const Edit&) = default;
Edit::Edit(Edit&&) noexcept = default;
Edit& Edit::operator=(const Edit&) = default;
Edit& Edit::operator=(Edit&&) noexcept = default;
Edit::~Edit() = default;

bool operator==(const Edit& a, const Edit& b) {
    return static_cast<const Edit::Kinds&>(a) == static_cast<const Edit::Kinds&>(b);
}

namespace {

template <class Record, class Target>
bool refersTo(const Record& record, Id<Target> target) {
    bool refers = false;
    forEachReference(record, [&]<class Other>(Id<Other> id) {
        // A record of another type is not looked at: what is left of its fields costs nothing.
        if constexpr (std::is_same_v<Other, Target>) {
            refers = refers || id == target;
        }
    });
    return refers;
}

/// Calls `visit(record)` for each record of any type that points at `target`.
template <class... Records, class Visit>
void forEachReferrer(RecordTypes<Records...>, const Book& book, const AnyId& target, Visit visit) {
    const auto inTable = [&](const auto& table, auto id) {
        for (const auto& record : table) {
            if (refersTo(record, id)) {
                visit(record);
            }
        }
    };
    std::visit([&](auto id) { (inTable(book.all<Records>(), id), ...); }, target);
}

struct Applier {
    Book& book;
    Edits& inverse;
    Change& change;

    template <class Record>
    Result<void> operator()(const Put<Record>& edit) const {
        BEDLORE_EXPECTS(edit.record.id.isValid());
        bool dangling = false;
        forEachReference(edit.record, [&]<class Other>(Id<Other> id) {
            const bool itself = AnyId(id) == AnyId(edit.record.id);
            dangling = dangling || (!itself && book.find(id) == nullptr);
        });
        if (dangling) {
            return fail(inputError(
                "This change refers to something that is no longer in the book.",
                std::string("put ") + std::string(tableName<Record>)));
        }
        if (const Record* before = book.find(edit.record.id)) {
            inverse.emplace_back(Put<Record>{*before});
        } else {
            inverse.emplace_back(Remove<Record>{edit.record.id});
        }
        book.all<Record>().put(edit.record);
        change.touched.emplace_back(edit.record.id);
        return {};
    }

    template <class Record>
    Result<void> operator()(const Remove<Record>& edit) const {
        const Record* before = book.find(edit.id);
        const bool used = isUsed(book, AnyId(edit.id));
        if (before == nullptr || used) {
            return fail(inputError(
                before == nullptr ? "What was to be removed is no longer in the book."
                                  : "This cannot be removed while something else still uses it.",
                std::string("remove ") + std::string(tableName<Record>)));
        }
        inverse.emplace_back(Put<Record>{*before});
        book.all<Record>().remove(edit.id);
        change.touched.emplace_back(edit.id);
        return {};
    }
};

struct LargestId {
    template <class Record>
    std::int64_t operator()(const Put<Record>& edit) const {
        return edit.record.id.value;
    }
    template <class Record>
    std::int64_t operator()(const Remove<Record>& edit) const {
        return edit.id.value;
    }
};

void collectRemovals(const Book& book, const AnyId& target, std::set<AnyId>& seen, Edits& edits) {
    if (!seen.insert(target).second) {
        return;
    }
    forEachReferrer(AllRecords{}, book, target, [&](const auto& referrer) {
        collectRemovals(book, AnyId(referrer.id), seen, edits);
    });
    std::visit(
        [&]<class Record>(Id<Record> id) { edits.emplace_back(Remove<Record>{id}); }, target);
}

} // namespace

Result<Applied> applyEdits(const Book& book, const Edits& edits) {
    Applied applied{.book = book, .inverse = {}, .change = {}};
    const Applier applier{applied.book, applied.inverse, applied.change};
    for (const Edit& edit : edits) {
        if (Result<void> done = std::visit(applier, edit); !done) {
            return fail(done.error());
        }
    }
    std::reverse(applied.inverse.begin(), applied.inverse.end());
    return applied;
}

bool isUsed(const Book& book, const AnyId& id) {
    bool used = false;
    forEachReferrer(AllRecords{}, book, id, [&](const auto& referrer) {
        used = used || AnyId(referrer.id) != id;
    });
    return used;
}

std::int64_t largestId(const Edits& edits) {
    std::int64_t largest = 0;
    for (const Edit& edit : edits) {
        largest = std::max(largest, std::visit(LargestId{}, edit));
    }
    return largest;
}

template <class Record>
Edits removalWithDependents(const Book& book, Id<Record> id) {
    Edits edits;
    std::set<AnyId> seen;
    collectRemovals(book, AnyId(id), seen, edits);
    return edits;
}

template Edits removalWithDependents(const Book&, Id<Water>);
template Edits removalWithDependents(const Book&, Id<Swim>);
template Edits removalWithDependents(const Book&, Id<Visit>);
template Edits removalWithDependents(const Book&, Id<Aim>);
template Edits removalWithDependents(const Book&, Id<Cast>);
template Edits removalWithDependents(const Book&, Id<Reading>);
template Edits removalWithDependents(const Book&, Id<Page>);

} // namespace bedlore
