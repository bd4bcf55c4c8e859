// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "core/io/import_text.hpp"
#include "tests/fuzz/books.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/fuzz/promises.hpp"
#include "tests/fuzz/scratch.hpp"
#include "tests/support/told_book.hpp"

#include <algorithm>
#include <string>
#include <vector>

// A notebook page of any text at all: typed into a book, and as a file.

namespace bedlore::fuzz {

namespace {

constexpr std::size_t mostLines = 40; ///< of a typed page; more of them only take longer

/// What an editor would make of the bytes: it holds UTF-8 alone.
std::vector<std::string> typedLines(std::string_view bytes) {
    std::string text(bytes);
    while (const auto bad = firstBadByte(text)) {
        text[*bad] = '?';
    }
    std::vector<std::string> lines;
    std::size_t from = 0;
    while (from < text.size() && lines.size() < mostLines) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    return text;
}

void mustBeSound(const PageMeaning& meaning, const std::vector<std::string>& lines) {
    must(meaning.lines.size() == lines.size(), "every line means something");
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const LineMeaning& line = meaning.lines[i];
        must(
            (line.kind == LineKind::Unclear) == !line.unclear.empty(),
            "a line is unclear where it says what is unclear",
            lines[i] + " / " + line.unclear);
        must(!firstBadByte(line.words), "what is shown beside a line is UTF-8", line.words);
        must(!firstBadByte(line.unclear), "what is unclear is said in UTF-8", line.unclear);
        must(!firstBadByte(line.remark), "a remark is UTF-8", line.remark);
        must(
            line.remark.empty() || line.kind != LineKind::Unclear,
            "a remark is on a line that counts",
            lines[i]);
        must(
            (line.kind == LineKind::Reading || line.kind == LineKind::Spot) ==
                line.draft.has_value(),
            "a reading and a spot have their draft",
            lines[i]);
    }
    for (const ReadingDraft& draft : meaning.readings) {
        must(draft.castIndex < meaning.casts.size(), "a reading has its cast");
    }
    for (const CastDraft& cast : meaning.casts) {
        must(cast.section < meaning.sections.size(), "a cast has its visit");
    }
}

/// With the offered line above it, what was asked is answered.
void mustHelpAbove(
    std::vector<std::string> lines,
    std::size_t line,
    const LineOffer& offer,
    const std::string& asked,
    const PageContext& context) {
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(line), offer.above);
    const PageMeaning helped = readPage(lines, context);
    mustBeSound(helped, lines);
    must(
        helped.lines[line + 1].remark != asked,
        "a line put above another answers what was asked",
        lines[line + 1]);
}

/// Taking what is offered makes the line clear.
void mustMend(
    std::vector<std::string> lines, const PageMeaning& meaning, const PageContext& context) {
    constexpr std::size_t mostTried = 3;
    std::size_t tried = 0;
    for (std::size_t i = 0; i < lines.size() && tried < mostTried; ++i) {
        for (const LineOffer& offer : meaning.lines[i].offers) {
            must(!offer.words.empty(), "an offer says what it is", lines[i]);
            must(
                !offer.replacement.empty() || !offer.above.empty() || offer.answer.has_value(),
                "an offer changes the line, puts one above it or is remembered",
                lines[i]);
            if (!offer.above.empty()) {
                ++tried;
                mustHelpAbove(lines, i, offer, meaning.lines[i].remark, context);
            }
            if (offer.replacement.empty()) {
                continue;
            }
            ++tried;
            const std::string before = std::exchange(lines[i], offer.replacement);
            const PageMeaning mended = readPage(lines, context);
            mustBeSound(mended, lines);
            lines[i] = before;
        }
    }
}

/// A page under the hand.
class Desk {
public:
    Desk()
        : made_(bookToTypeInto())
        , book_(made_.book)
        , ids_(made_.nextId) {
        page_.id = ids_.take<Page>();
        page_.water = book_.all<Water>().begin()->id;
    }

    void type(const std::vector<std::string>& lines) {
        std::vector<TypedLine> typed;
        const auto stored = linesOf(book_, page_.id);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const bool there = i < stored.size() && stored[i]->text == lines[i];
            typed.push_back(
                {.id = there ? std::optional(stored[i]->id) : std::nullopt, .text = lines[i]});
        }
        const auto update = updatePage(book_, page_, typed, ids_);
        must(update.has_value(), "any page can be typed");
        mustBeSound(update->read.meaning, lines);
        book_ = mustApply(book_, update->edits);
        must(pageText(book_, page_.id) == joined(lines), "a page is kept word for word");
    }

    [[nodiscard]] Edits again() {
        std::vector<TypedLine> same;
        for (const PageLine* line : linesOf(book_, page_.id)) {
            same.push_back({.id = line->id, .text = line->text});
        }
        const auto update = updatePage(book_, page_, same, ids_);
        must(update.has_value(), "any page can be typed again");
        return update->edits;
    }

    [[nodiscard]] const Book& book() const { return book_; }
    [[nodiscard]] PageContext context() const { return pageContext(book_, page_.water); }
    [[nodiscard]] std::string told() const { return testing::told(book_, page_.water); }

private:
    MadeBook made_;
    Book book_;
    IdSource ids_;
    Page page_;
};

void checkTyped(std::string_view bytes) {
    const std::vector<std::string> lines = typedLines(bytes);
    Desk desk;
    const std::string before = desk.told();
    const PageContext context = desk.context();
    const PageMeaning meaning = readPage(lines, context);
    mustBeSound(meaning, lines);
    mustMend(lines, meaning, context);

    Desk atOnce;
    atOnce.type(lines);
    must(atOnce.again().empty(), "the same page again changes nothing");
    mustReduce(atOnce.book());

    desk.type({lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(lines.size() / 2)});
    desk.type(lines);
    must(
        desk.told() == atOnce.told(),
        "a page typed in two goes says what it says typed at once",
        desk.told() + "---\n" + atOnce.told());
    desk.type({});
    must(desk.told() == before, "a page taken away leaves nothing behind", desk.told());
}

void checkFile(std::string_view bytes) {
    const std::filesystem::path file = scratch().put("page.txt", bytes);
    const MadeBook made = bookToTypeInto();
    const auto plan = mustImport(made.book, made.nextId, file);
    if (!plan) {
        return;
    }
    const Book after = mustApply(made.book, plan->edits);
    if (after.all<Page>().empty()) {
        return; // a table under the name of a text
    }
    const std::string kept = pageText(after, after.all<Page>().begin()->id);
    const auto bare = [](std::string_view text) {
        std::string rest;
        std::copy_if(text.begin(), text.end(), std::back_inserter(rest), [](char c) {
            return c != '\n' && c != '\r';
        });
        return rest;
    };
    if (bytes.starts_with(utf8Mark)) {
        bytes.remove_prefix(utf8Mark.size());
    }
    must(bare(kept) == bare(bytes), "a page's file is kept word for word", kept);
}

} // namespace

} // namespace bedlore::fuzz

// The name is libFuzzer's.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes = bedlore::fuzz::textOf(data, size);
    bedlore::fuzz::checkTyped(bytes);
    bedlore::fuzz::checkFile(bytes);
    return 0;
}
