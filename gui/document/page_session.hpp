// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/page_edits.hpp"
#include "core/book/page_meaning.hpp"
#include "gui/document/document.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// One page of the notebook between the editor and the book.

namespace bedlore {

/// The page that is being typed. A new page is not in the book until its first line is kept; the
/// same act then makes its water, where the book has none.
class PageSession {
public:
    explicit PageSession(Document& document)
        : document_(document) {}

    /// Turns to a page of the book.
    void open(Id<Page> page) { page_ = page; }
    /// Turns to a new page of `water`, or of the book's only water where it is empty.
    void begin(std::optional<Id<Water>> water);

    /// Empty for a page that is not in the book (yet, or after undo).
    [[nodiscard]] std::optional<Id<Page>> page() const;
    [[nodiscard]] std::optional<Id<Water>> water() const;
    /// The page as the book has it: valid until the document or the page is another.
    [[nodiscard]] const std::vector<std::string>& keptLines() const { return kept().lines; }
    [[nodiscard]] const std::vector<const PageLine*>& keptRecords() const { return kept().records; }

    /// What `lines` would mean on this page: valid until the page is read anew. Changes nothing.
    [[nodiscard]] const PageMeaning& meaningOf(const std::vector<std::string>& lines) const;

    /// Whether he only rests in the middle of a line.
    enum class Typing : std::uint8_t { Done, Pausing };
    /// Makes the page say `lines`: one durable act, or nothing and a reason. A line that was kept
    /// in a pause and goes on is the same act.
    [[nodiscard]] Result<void>
    keep(const std::vector<std::string>& lines, Typing typing = Typing::Done);
    /// Whether the last thing that happened to the book is a line that was kept in a pause.
    [[nodiscard]] bool hasOpenLine() const;
    /// Takes up an offer on line `index` of `lines`: the line is replaced, and what is to be
    /// remembered is remembered, in one act. Gives the lines as they then are.
    [[nodiscard]] Result<std::vector<std::string>>
    take(const LineOffer& offer, std::size_t index, std::vector<std::string> lines);

private:
    struct Act {
        std::string label;
        bool goesOn = false; ///< it is more of the last one
    };
    /// `before` are edits that belong to the same act and come first.
    [[nodiscard]] Result<void>
    keepAfter(Edits edits, const std::vector<std::string>& lines, const Act& act);

    [[nodiscard]] Result<Edits>
    rereadOthers(const Book& taught, const Edits& page, Id<Page> target, IdSource& ids) const;

    /// The page's lines in a book, gathered once: they lie among those of all other pages.
    struct Kept {
        std::weak_ptr<const Book> book;
        std::optional<Id<Page>> page;
        std::vector<const PageLine*> records;
        std::vector<std::string> lines;
    };
    [[nodiscard]] const Kept& kept() const;

    Document& document_;
    std::optional<Id<Page>> page_;
    std::optional<Id<Water>> water_;
    /// A line kept in a pause, and the book as it was then.
    struct OpenLine {
        std::size_t line = 0;
        std::weak_ptr<const Book> book;
    };
    std::optional<OpenLine> open_;
    [[nodiscard]] std::shared_ptr<const PageAsRead>
    readOnce(const std::vector<std::string>& lines, const PageContext& context) const;

    /// The page as it was read lately, the last first; null until then. What a line means is asked
    /// several times, and undo comes back to what was kept: a list of its own, since every letter
    /// typed is one more reading.
    using ReadLately = std::array<std::shared_ptr<const PageAsRead>, 4>;
    mutable ReadLately typed_;
    ReadLately kept_;
    mutable Kept lines_;
};

} // namespace bedlore
