// SPDX-License-Identifier: MIT
#include "gui/document/book_search.hpp"

#include "gui/document/readout.hpp"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <map>
#include <utility>

namespace bedlore {

namespace {

QString words(const char* text) {
    return QCoreApplication::translate("bedlore::BookSearch", text);
}

QString toQt(const std::string& text) {
    return QString::fromStdString(text);
}

/// Several texts of one record as one line.
std::string joined(const std::vector<std::string>& parts) {
    std::string all;
    for (const std::string& part : parts) {
        all += (all.empty() || part.empty() ? "" : ": ") + part;
    }
    return all;
}

/// What was felt, in whole words.
std::string meantBy(const Reading& reading) {
    Reading felt = reading;
    felt.depth.reset(); // how deep it is stands there as he wrote it
    std::string words = feltWords(felt);
    for (const OnLead found : reading.onLead) {
        words += " " + std::string(word(found));
    }
    return words;
}

std::optional<Id<Visit>> visitOf(const Book& book, const PageLine& line) {
    const Reading* reading = line.reading ? book.find(*line.reading) : nullptr;
    return reading != nullptr ? std::optional(book.get(reading->cast).visit) : std::nullopt;
}

/// Where a place of the book is, in words.
struct WhereWords {
    const Book& book;

    QString operator()(const FoundOnPage& found) const {
        const QString place =
            found.visit ? (*this)(*found.visit) : water(book.get(found.page).water);
        return place + words(" › line %1").arg(found.line + 1);
    }
    QString operator()(Id<Reading> id) const {
        return (*this)(book.get(book.get(id).cast).visit) + words(" › a reading");
    }
    QString operator()(Id<Visit> id) const {
        const Visit& visit = book.get(id);
        return (*this)(visit.swim) + QStringLiteral(" › ") + toQt(dateWords(visit.date));
    }
    QString operator()(Id<Swim> id) const {
        const Swim& swim = book.get(id);
        return water(swim.water) + QStringLiteral(" › ") + toQt(swim.name);
    }
    QString operator()(Id<Spot> id) const { return water(book.get(id).water) + words(" › a spot"); }
    QString operator()(Id<Mark> id) const { return water(book.get(id).water) + words(" › a mark"); }
    QString operator()(Id<Water> id) const { return water(id); }

    [[nodiscard]] QString water(Id<Water> id) const { return toQt(book.get(id).name); }
};

/// The whereabouts of a found place; none for what is gone.
struct Whence {
    const Book& book;

    std::optional<Whereabouts> operator()(const FoundOnPage& found) const {
        const Page* page = book.find(found.page);
        if (page == nullptr) {
            return std::nullopt;
        }
        if (found.visit && book.find(*found.visit) != nullptr) {
            return whereaboutsOf(book, *found.visit);
        }
        return at(page->water);
    }
    std::optional<Whereabouts> operator()(Id<Reading> id) const {
        const Reading* reading = book.find(id);
        return reading != nullptr ? (*this)(book.get(reading->cast).visit) : std::nullopt;
    }
    std::optional<Whereabouts> operator()(Id<Visit> id) const {
        return book.find(id) != nullptr ? std::optional(whereaboutsOf(book, id)) : std::nullopt;
    }
    std::optional<Whereabouts> operator()(Id<Swim> id) const {
        const Swim* swim = book.find(id);
        return swim != nullptr ? at(swim->water, id) : std::nullopt;
    }
    std::optional<Whereabouts> operator()(Id<Spot> id) const {
        const Spot* spot = book.find(id);
        return spot != nullptr ? at(spot->water) : std::nullopt;
    }
    std::optional<Whereabouts> operator()(Id<Mark> id) const {
        const Mark* mark = book.find(id);
        return mark != nullptr ? at(mark->water, mark->bearingFrom) : std::nullopt;
    }
    std::optional<Whereabouts> operator()(Id<Water> id) const {
        return book.find(id) != nullptr ? at(id) : std::nullopt;
    }

    static std::optional<Whereabouts>
    at(Id<Water> water, std::optional<Id<Swim>> swim = std::nullopt) {
        return Whereabouts{.water = water, .swim = swim, .visit = std::nullopt};
    }
};

} // namespace

std::optional<Whereabouts> whereFound(const Book& book, const FoundPlace& place) {
    return std::visit(Whence{book}, place);
}

QString foldedForSearch(const QString& text) {
    QString plain;
    plain.reserve(text.size());
    for (const QChar c : text.normalized(QString::NormalizationForm_KD).toCaseFolded()) {
        switch (c.unicode()) {
        // Letters with a stroke are one sign each, whatever they are taken apart by.
        case u'ø':
            plain += u'o';
            break;
        case u'ł':
            plain += u'l';
            break;
        case u'đ':
            plain += u'd';
            break;
        case u'\u2044': // of ½, which comes apart as 1⁄2
            plain += u'/';
            break;
        default:
            if (!c.isMark()) {
                plain += c;
            }
        }
    }
    return plain;
}

BookSearch::BookSearch(std::shared_ptr<const Book> book)
    : book_(std::move(book)) {
    addRecords();
    addPages();
}

void BookSearch::add(FoundPlace place, const std::string& text, const std::string& meant) {
    if (!text.empty()) {
        const QString shown = toQt(text);
        entries_.push_back(
            {.place = place,
             .text = shown,
             .folded = foldedForSearch(shown + u'\n' + toQt(meant))});
    }
}

void BookSearch::addRecords() {
    for (const Water& water : book_->all<Water>()) {
        add(water.id, joined({water.name, water.levelReference.words, water.rules}));
    }
    for (const Swim& swim : book_->all<Swim>()) {
        add(swim.id, joined({swim.name, swim.standing}));
    }
    for (const Mark& mark : book_->all<Mark>()) {
        add(mark.id, joined({mark.name, mark.note}));
    }
    for (const Spot& spot : book_->all<Spot>()) {
        add(spot.id, joined({spot.name, spot.note}));
    }
    for (const Visit& visit : book_->all<Visit>()) {
        add(visit.id, joined({visitWords(visit), visit.author, visit.note}));
    }
    for (const Reading& reading : book_->all<Reading>()) {
        if (reading.source) {
            const std::string felt = feltWords(reading);
            add(reading.id, reading.note.empty() ? felt : reading.note, felt);
        }
    }
}

void BookSearch::addPages() {
    std::map<Id<Page>, std::vector<const PageLine*>> pages;
    for (const PageLine& line : book_->all<PageLine>()) {
        pages[line.page].push_back(&line);
    }
    for (auto& [page, lines] : pages) {
        std::stable_sort(lines.begin(), lines.end(), [](const PageLine* a, const PageLine* b) {
            return a->order < b->order;
        });
        // Headers come before the first reading of their visit, notes after one.
        std::optional<Id<Visit>> visit;
        for (const PageLine* line : lines) {
            visit = visitOf(*book_, *line);
            if (visit) {
                break;
            }
        }
        int number = 0;
        for (const PageLine* line : lines) {
            if (const auto its = visitOf(*book_, *line)) {
                visit = its;
            }
            const Reading* reading = line->reading ? book_->find(*line->reading) : nullptr;
            add(FoundOnPage{.page = page, .line = number, .visit = visit},
                line->text,
                reading != nullptr ? meantBy(*reading) : std::string());
            ++number;
        }
    }
}

Found BookSearch::find(const QString& typed, std::size_t most, const Progress& progress) const {
    Found found;
    const QStringList wanted = foldedForSearch(typed).simplified().split(u' ', Qt::SkipEmptyParts);
    if (wanted.isEmpty()) {
        return found;
    }
    for (const Entry& entry : entries_) {
        const bool holds = std::all_of(wanted.begin(), wanted.end(), [&](const QString& word) {
            return entry.folded.contains(word);
        });
        if (!holds) {
            continue;
        }
        if (progress.cancelled()) {
            break;
        }
        if (++found.count <= most) {
            found.lines.push_back(
                {.place = entry.place,
                 .where = std::visit(WhereWords{*book_}, entry.place),
                 .text = entry.text});
        }
    }
    return found;
}

} // namespace bedlore
