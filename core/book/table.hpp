// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/contract.hpp"
#include "core/base/id.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <memory>
#include <utility>
#include <vector>

// All records of one type, in the order of their ids.

namespace bedlore {

/// A value: copying shares the records and is cheap; changing a copy leaves the original alone.
/// Copying costs one pointer, the first change after it one pointer for each record.
template <class Record>
class Table {
    using Row = std::shared_ptr<const Record>;
    using Rows = std::vector<Row>;

public:
    class Iterator {
    public:
        using iterator_category = std::forward_iterator_tag;
        using value_type = Record;
        using difference_type = std::ptrdiff_t;
        using pointer = const Record*;
        using reference = const Record&;

        Iterator() = default;
        explicit Iterator(typename Rows::const_iterator at)
            : at_(at) {}
        reference operator*() const { return **at_; }
        pointer operator->() const { return at_->get(); }
        Iterator& operator++() {
            ++at_;
            return *this;
        }
        Iterator operator++(int) {
            Iterator before = *this;
            ++at_;
            return before;
        }
        friend bool operator==(const Iterator&, const Iterator&) = default;

    private:
        typename Rows::const_iterator at_;
    };

    [[nodiscard]] Iterator begin() const { return Iterator(rows_->cbegin()); }
    [[nodiscard]] Iterator end() const { return Iterator(rows_->cend()); }
    [[nodiscard]] std::size_t size() const { return rows_->size(); }
    [[nodiscard]] bool empty() const { return rows_->empty(); }

    /// Null where there is none. Valid until the table changes.
    [[nodiscard]] const Record* find(Id<Record> id) const {
        const auto at = lowerBound(*rows_, id);
        return at != rows_->end() && (*at)->id == id ? at->get() : nullptr;
    }

    /// Puts a new record in, or in place of the one with its id.
    void put(Record record) {
        Rows& rows = own();
        const auto at = lowerBound(rows, record.id);
        const bool there = at != rows.end() && (*at)->id == record.id;
        auto row = std::make_shared<const Record>(std::move(record));
        if (there) {
            rows[static_cast<std::size_t>(at - rows.begin())] = std::move(row);
        } else {
            rows.insert(at, std::move(row));
        }
    }

    /// Puts a record behind all others, whose ids must be lower: how a stored table is read.
    void append(std::shared_ptr<const Record> record) {
        Rows& rows = own();
        BEDLORE_EXPECTS(rows.empty() || rows.back()->id < record->id);
        rows.push_back(std::move(record));
    }

    void remove(Id<Record> id) {
        Rows& rows = own();
        const auto at = lowerBound(rows, id);
        if (at != rows.end() && (*at)->id == id) {
            rows.erase(at);
        }
    }

    friend bool operator==(const Table& a, const Table& b) {
        return a.rows_ == b.rows_ ||
               std::equal(
                   a.rows_->begin(),
                   a.rows_->end(),
                   b.rows_->begin(),
                   b.rows_->end(),
                   [](const Row& x, const Row& y) { return x == y || *x == *y; });
    }

private:
    static auto lowerBound(const Rows& rows, Id<Record> id) {
        return std::lower_bound(
            rows.begin(), rows.end(), id, [](const Row& row, Id<Record> wanted) {
                return row->id < wanted;
            });
    }
    Rows& own() {
        if (rows_.use_count() != 1) {
            rows_ = std::make_shared<Rows>(*rows_);
        }
        return *rows_;
    }

    std::shared_ptr<Rows> rows_ = std::make_shared<Rows>();
};

} // namespace bedlore
