// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/io/table_reader.hpp"

#include <algorithm>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

// What a book's tables of text say, before it meets a book.

namespace bedlore {

template <class Record>
struct IncomingRow {
    Record record;
    int line = 0;
    bool leftOut = false;
};

/// The good rows of one table by their ids, and the ids of the bad ones.
template <class Record>
struct Incoming {
    OpenTable* table = nullptr; ///< null where it is not among the files
    std::vector<IncomingRow<Record>> rows;
    std::set<std::int64_t> spoilt;

    /// Null where there is none, or where it was left out.
    [[nodiscard]] const Record* find(Id<Record> id) const {
        const auto at = std::lower_bound(
            rows.begin(), rows.end(), id, [](const IncomingRow<Record>& row, Id<Record> wanted) {
                return row.record.id < wanted;
            });
        const bool there = at != rows.end() && at->record.id == id && !at->leftOut;
        return there ? &at->record : nullptr;
    }
};

namespace detail {
template <class List>
struct IncomingOf;
template <class... Records>
struct IncomingOf<RecordTypes<Records...>> {
    using type = std::tuple<Incoming<Records>...>;
};
} // namespace detail

/// `tables` keeps the faults of every file.
class BookRows {
public:
    explicit BookRows(std::vector<OpenTable> tables)
        : tables_(std::move(tables)) {}
    BookRows(const BookRows&) = delete;
    BookRows& operator=(const BookRows&) = delete;

    /// Reads every file to its end. Fails when the device fails, or when stopped.
    [[nodiscard]] Result<void> read(const Progress& progress);

    template <class Record>
    [[nodiscard]] Incoming<Record>& all() {
        return std::get<Incoming<Record>>(incoming_);
    }
    [[nodiscard]] const std::vector<OpenTable>& tables() const { return tables_; }
    [[nodiscard]] bool anyUnusable() const {
        return std::any_of(tables_.begin(), tables_.end(), [](const OpenTable& table) {
            return table.faults.fileIsUnusable();
        });
    }
    /// None where the files do not say it.
    [[nodiscard]] std::optional<std::int64_t> nextId() const { return nextId_; }
    [[nodiscard]] bool saysHowMuch() const { return saysHowMuch_; }
    /// Of tables that a newer program wrote.
    [[nodiscard]] const std::optional<Error>& newer() const { return newer_; }
    [[nodiscard]] std::vector<std::string>& notices() { return notices_; }

private:
    [[nodiscard]] OpenTable* tableNamed(std::string_view name);
    template <class Row, class Use, class Spoilt>
    [[nodiscard]] Result<void>
    readTable(std::string_view name, const Progress& progress, Use&& use, Spoilt&& spoilt);
    template <class Record>
    [[nodiscard]] Result<void> readRecords(const Progress& progress);
    [[nodiscard]] Result<void> readFixes(const Progress& progress);
    [[nodiscard]] Result<void> readMeta(const Progress& progress);
    void takeMeta(const MetaRow& row, int line, OpenTable& meta);
    void checkCount(const std::string& table, const MetaRow& row, int line, OpenTable& meta);

    std::vector<OpenTable> tables_;
    LongValues longOnes_;
    detail::IncomingOf<AllRecords>::type incoming_;
    std::set<std::string> metaKeys_;
    std::optional<std::int64_t> nextId_;
    bool saysHowMuch_ = false;
    std::optional<Error> newer_;
    std::vector<std::string> notices_;
};

} // namespace bedlore
