// SPDX-License-Identifier: MIT
#include "core/book/edit.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/references.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
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

std::size_t recordsIn(const Book& book) {
    std::size_t count = 0;
    const auto add = [&]<class... Records>(RecordTypes<Records...>) {
        ((count += book.all<Records>().size()), ...);
    };
    add(AllRecords{});
    return count;
}

/// How many records point at each, itself left out: what many removals ask, kept up to date from
/// edit to edit.
class Pointers {
public:
    explicit Pointers(const Book& book) {
        const auto take = [&]<class... Records>(RecordTypes<Records...>) {
            (takeAll(book.all<Records>()), ...);
        };
        take(AllRecords{});
    }

    [[nodiscard]] bool leadTo(const AnyId& id) const {
        const auto found = counts_.find(id);
        return found != counts_.end() && found->second > 0;
    }
    template <class Record>
    void add(const Record& record) {
        count(record, 1);
    }
    template <class Record>
    void takeAway(const Record& record) {
        count(record, -1);
    }

private:
    struct Hash {
        std::size_t operator()(const AnyId& id) const {
            return std::visit([](auto one) { return std::hash<std::int64_t>{}(one.value); }, id);
        }
    };

    template <class Record>
    void takeAll(const Table<Record>& table) {
        for (const Record& record : table) {
            add(record);
        }
    }
    template <class Record>
    void count(const Record& record, int by) {
        forEachReference(record, [&]<class Other>(Id<Other> id) {
            if (AnyId(id) != AnyId(record.id)) {
                counts_[AnyId(id)] += by;
            }
        });
    }

    std::unordered_map<AnyId, int, Hash> counts_;
};

bool removes(const Edit& edit) {
    return std::visit(
        Overloaded{
            []<class Record>(const Put<Record>&) { return false; },
            []<class Record>(const Remove<Record>&) { return true; }},
        static_cast<const Edit::Kinds&>(edit));
}

struct Applier {
    Book& book;
    Edits& inverse;
    Change& change;
    std::size_t& lookedThrough;
    std::optional<Pointers>& pointers; ///< only for many removals

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
            if (pointers) {
                pointers->takeAway(*before);
            }
        } else {
            inverse.emplace_back(Remove<Record>{edit.record.id});
        }
        if (pointers) {
            pointers->add(edit.record);
        }
        book.all<Record>().put(edit.record);
        change.touched.emplace_back(edit.record.id);
        return {};
    }

    template <class Record>
    Result<void> operator()(const Remove<Record>& edit) const {
        const Record* before = book.find(edit.id);
        const bool used = isStillUsed(AnyId(edit.id));
        if (before == nullptr || used) {
            return fail(inputError(
                before == nullptr ? "What was to be removed is no longer in the book."
                                  : "This cannot be removed while something else still uses it.",
                std::string("remove ") + std::string(tableName<Record>)));
        }
        inverse.emplace_back(Put<Record>{*before});
        if (pointers) {
            pointers->takeAway(*before);
        }
        book.all<Record>().remove(edit.id);
        change.touched.emplace_back(edit.id);
        return {};
    }

    [[nodiscard]] bool isStillUsed(const AnyId& id) const {
        if (pointers) {
            return pointers->leadTo(id);
        }
        lookedThrough += recordsIn(book);
        return isUsed(book, id);
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
    constexpr std::ptrdiff_t many = 8; // of which each would go through the whole book
    Applied applied{.book = book, .inverse = {}, .change = {}};
    std::optional<Pointers> pointers;
    if (std::count_if(edits.begin(), edits.end(), removes) > many) {
        pointers.emplace(book);
        applied.lookedThrough = recordsIn(book);
    }
    const Applier applier{
        applied.book, applied.inverse, applied.change, applied.lookedThrough, pointers};
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
