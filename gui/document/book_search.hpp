// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/book/book.hpp"
#include "gui/document/whereabouts.hpp"

#include <QString>

#include <cstddef>
#include <memory>
#include <optional>
#include <variant>
#include <vector>

// Finding words of his in the whole book.

namespace bedlore {

/// A line of a page: `line` counts from 0, `visit` is the one that it speaks of.
struct FoundOnPage {
    Id<Page> page;
    int line = 0;
    std::optional<Id<Visit>> visit;
    friend bool operator==(const FoundOnPage&, const FoundOnPage&) = default;
};

using FoundPlace =
    std::variant<FoundOnPage, Id<Reading>, Id<Visit>, Id<Swim>, Id<Spot>, Id<Mark>, Id<Water>>;

/// `where` is in words: "Harl Pit › the Point › 12 April 2025 › line 12".
struct FoundLine {
    FoundPlace place;
    QString where;
    QString text;
};

/// The first lines found, and how many there are altogether.
struct Found {
    std::vector<FoundLine> lines;
    std::size_t count = 0;
};

/// Everything that he wrote into a book, made ready for searching: lines of pages, readings that
/// came from tables, visits, swims, spots, marks, waters. What was felt is found by its word
/// ("gravel") where a code of the page or of his own stands for it.
class BookSearch {
public:
    explicit BookSearch(std::shared_ptr<const Book> book);

    [[nodiscard]] const std::shared_ptr<const Book>& book() const { return book_; }

    /// Lines that hold every word of `typed`, in the order of the book; letter case and accents
    /// count for nothing, no letter means anything else than itself. At most `most` of them are
    /// given. Nothing for nothing.
    [[nodiscard]] Found
    find(const QString& typed, std::size_t most, const Progress& progress = {}) const;

private:
    struct Entry {
        FoundPlace place;
        QString text;
        QString folded;
    };
    /// `meant` are words that are found too, and not shown.
    void add(FoundPlace place, const std::string& text, const std::string& meant = {});
    void addPages();
    void addRecords();

    std::shared_ptr<const Book> book_;
    std::vector<Entry> entries_;
};

/// Where a found place belongs; none where it has gone from the book since.
[[nodiscard]] std::optional<Whereabouts> whereFound(const Book& book, const FoundPlace& place);

/// Small letters without accents: "Élodée" is "elodee".
[[nodiscard]] QString foldedForSearch(const QString& text);

} // namespace bedlore
