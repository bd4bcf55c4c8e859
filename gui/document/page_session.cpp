// SPDX-License-Identifier: MIT
#include "gui/document/page_session.hpp"

#include "core/book/edit.hpp"
#include "core/book/page_edits.hpp"
#include "core/book/taught.hpp"
#include "gui/document/typed_lines.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace bedlore {

namespace {

/// Adds the page, and its water where there is none, to `edits`.
Page putNewPage(
    Edits& edits, IdSource& ids, std::optional<Id<Water>> water, const std::string& name) {
    if (!water) {
        Water record;
        record.id = ids.take<Water>();
        record.name = name;
        water = record.id;
        edits.emplace_back(Put<Water>{std::move(record)});
    }
    Page page;
    page.id = ids.take<Page>();
    page.water = *water;
    edits.emplace_back(Put<Page>{page});
    return page;
}

/// Puts `read` first among those of `lately`, the oldest of which it takes the place of.
template <class Reads>
void remember(Reads& lately, std::shared_ptr<const PageAsRead> read) {
    const auto last = std::prev(lately.end());
    const auto place = std::find(lately.begin(), last, read);
    std::rotate(lately.begin(), place, std::next(place));
    lately.front() = std::move(read);
}

} // namespace

void PageSession::begin(std::optional<Id<Water>> water) {
    page_.reset();
    water_ = water;
}

std::optional<Id<Page>> PageSession::page() const {
    return page_ && document_.book()->find(*page_) != nullptr ? page_ : std::nullopt;
}

std::optional<Id<Water>> PageSession::water() const {
    const auto book = document_.book();
    if (const auto current = page()) {
        return book->get(*current).water;
    }
    if (water_ && book->find(*water_) != nullptr) {
        return water_;
    }
    const Table<Water>& waters = book->all<Water>();
    return waters.size() == 1 ? std::optional(waters.begin()->id) : std::nullopt;
}

const PageSession::Kept& PageSession::kept() const {
    const auto book = document_.book();
    const auto current = page();
    if (lines_.book.lock() != book || lines_.page != current) {
        lines_ = {.book = book, .page = current, .records = {}, .lines = {}};
        if (current) {
            lines_.records = linesOf(*book, *current);
        }
        for (const PageLine* line : lines_.records) {
            lines_.lines.push_back(line->text);
        }
    }
    return lines_;
}

const PageMeaning& PageSession::meaningOf(const std::vector<std::string>& lines) const {
    const auto here = water();
    return readOnce(lines, here ? pageContext(*document_.book(), *here) : PageContext{})->meaning;
}

std::shared_ptr<const PageAsRead>
PageSession::readOnce(const std::vector<std::string>& lines, const PageContext& context) const {
    const auto isThis = [&](const auto& read) { return isReadFrom(read.get(), lines, context); };
    if (const auto known = std::find_if(kept_.begin(), kept_.end(), isThis); known != kept_.end()) {
        return *known;
    }
    const auto known = std::find_if(typed_.begin(), typed_.end(), isThis);
    remember(
        typed_,
        known != typed_.end() ? *known : std::make_shared<PageAsRead>(readAs(lines, context)));
    return typed_.front();
}

bool PageSession::hasOpenLine() const {
    return open_ && open_->book.lock() == document_.book();
}

Result<void> PageSession::keep(const std::vector<std::string>& lines, Typing typing) {
    const std::vector<std::string> before = keptLines();
    Result<void> kept;
    if (before != lines) {
        const LineChange change = lineChange(before, lines);
        const bool isOneLine = change.added == 1 && change.removed <= 1;
        const bool goesOn =
            hasOpenLine() && isOneLine && change.removed == 1 && change.first == open_->line;
        kept = keepAfter({}, lines, {.label = words(change), .goesOn = goesOn});
        open_.reset();
        if (kept && isOneLine && typing == Typing::Pausing) {
            open_ = {.line = change.first, .book = document_.book()};
        }
    }
    if (typing == Typing::Done) {
        open_.reset();
    }
    return kept;
}

Result<Edits> PageSession::rereadOthers(
    const Book& taught, const Edits& page, Id<Page> target, IdSource& ids) const {
    const Result<Applied> now = applyEdits(taught, page);
    if (!now) {
        return fail(now.error());
    }
    return rereadPages(*document_.book(), now->book, target, ids);
}

Result<void>
PageSession::keepAfter(Edits edits, const std::vector<std::string>& lines, const Act& act) {
    IdSource ids(std::max(document_.freeIds().next(), largestId(edits) + 1));
    const auto current = page();
    const Page target = current ? document_.book()->get(*current)
                                : putNewPage(edits, ids, water(), document_.name().toStdString());
    // What the page becomes is worked out on a book that already holds what comes first.
    Result<Applied> prepared = applyEdits(*document_.book(), edits);
    if (!prepared) {
        return fail(prepared.error());
    }
    const bool taught = !edits.empty() && current;
    const PageContext context = pageContext(prepared->book, target.water);
    const PageContext former = taught ? pageContext(*document_.book(), target.water) : context;
    const auto before = readOnce(keptLines(), former);
    const auto now = readOnce(lines, context);
    Result<PageUpdate> update = updatePage(
        prepared->book,
        target,
        matchLines(linesOf(prepared->book, target.id), lines),
        ids,
        {.context = taught ? &former : nullptr, .last = before.get(), .now = now.get()});
    if (!update) {
        return fail(update.error());
    }
    edits.insert(edits.end(), update->edits.begin(), update->edits.end());
    if (taught) {
        // The same question is asked on no other page either.
        const Result<Edits> others = rereadOthers(prepared->book, update->edits, target.id, ids);
        if (!others) {
            return fail(others.error());
        }
        edits.insert(edits.end(), others->begin(), others->end());
    }
    // Whoever hears of the change must find the page here already.
    const std::optional<Id<Page>> pageBefore = std::exchange(page_, target.id);
    Result<Change> done = act.goesOn ? document_.goOn(edits) : document_.apply(act.label, edits);
    if (!done) {
        page_ = pageBefore;
        return fail(done.error());
    }
    remember(kept_, before);
    remember(kept_, now);
    return {};
}

Result<std::vector<std::string>>
PageSession::take(const LineOffer& offer, std::size_t index, std::vector<std::string> lines) {
    Edits before;
    if (offer.answer) {
        Answer answer = *offer.answer;
        answer.id = document_.freeIds().take<Answer>();
        before.emplace_back(Put<Answer>{std::move(answer)});
    }
    if (!offer.replacement.empty() && index < lines.size()) {
        lines[index] = offer.replacement;
    }
    if (!offer.above.empty() && index < lines.size()) {
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(index), offer.above);
    }
    const std::string label = "answered line " + std::to_string(index + 1);
    if (Result<void> kept = keepAfter(std::move(before), lines, {.label = label}); !kept) {
        return fail(kept.error());
    }
    return lines;
}

} // namespace bedlore
