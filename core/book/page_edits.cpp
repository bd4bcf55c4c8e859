// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"

#include "core/base/parallel.hpp"
#include "core/book/edit_plan.hpp"
#include "core/book/page_answers.hpp"
#include "core/book/page_former.hpp"
#include "core/book/page_leftovers.hpp"
#include "core/book/page_visit.hpp"
#include "core/book/page_waiting.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace bedlore {

namespace {

class Updater {
public:
    Updater(
        const Book& book,
        const Page& page,
        const std::vector<TypedLine>& lines,
        IdSource& ids,
        const FormerReading& former)
        : plan_(book, ids)
        , page_(page)
        , lines_(lines) {
        std::vector<std::string> texts;
        texts.reserve(lines.size());
        for (const TypedLine& line : lines) {
            texts.push_back(line.text);
        }
        readBoth(book, texts, former);
        if (renameAnswers(plan_, read_.context, former_, read_.said)) {
            read_ = readAs(std::move(read_.texts), std::move(read_.context));
        }
        notices_ = waitingWords(read_.meaning, read_.said);
    }

    PageUpdate run() {
        plan_.put(page_);
        lineOfReading();
        putVisits();
        putCasts();
        putReadings();
        putSpots();
        putLines();
        removeLeftovers();
        return {
            .edits = plan_.takeEdits(), .notices = std::move(notices_), .read = std::move(read_)};
    }

private:
    /// The page as it was and as it is. With every line typed all of it is read, so both are
    /// remembered where they can be, or else read at the same time.
    void
    readBoth(const Book& book, const std::vector<std::string>& texts, const FormerReading& former) {
        std::vector<std::string> before;
        for (const PageLine* line : linesOf(book, page_.id)) {
            before.push_back(line->text);
        }
        const PageContext context = pageContext(book, page_.water);
        const PageContext& contextBefore = former.context != nullptr ? *former.context : context;
        const auto readNow = [&] {
            read_ = isReadFrom(former.now, texts, context) ? *former.now : readAs(texts, context);
        };
        if (isReadFrom(former.last, before, contextBefore)) {
            readNow();
            former_ = formerPage(book, page_, former.last->said);
            return;
        }
        inParallelBeside(readNow, 1, usualThreads(), [&](std::size_t) {
            former_ = formerPage(book, page_, saidByPage(readPage(before, contextBefore)));
        });
    }

    void lineOfReading() {
        readingLines_.resize(read_.meaning.readings.size());
        spotLines_.resize(read_.meaning.spots.size());
        for (std::size_t i = 0; i < read_.meaning.lines.size(); ++i) {
            const LineMeaning& line = read_.meaning.lines[i];
            if (line.draft) {
                (line.kind == LineKind::Spot ? spotLines_ : readingLines_)[*line.draft] = i;
            }
        }
    }

    [[nodiscard]] const PageLine* formerLine(std::size_t line) const {
        const auto& id = lines_[line].id;
        const auto found = id ? former_.lines.find(*id) : former_.lines.end();
        return found == former_.lines.end() ? nullptr : &found->second;
    }

    void putVisits() {
        std::vector<std::optional<VisitRecords>> records;
        for (const SaidOfVisit& said : read_.said.visits) {
            records.push_back(
                said.waits()
                    ? std::nullopt
                    : std::optional(putVisit(plan_, page_.water, said, beforeOf(said), notices_)));
            if (records.back()) {
                keptVisits_.insert(records.back()->visit);
                for (const auto& [label, id] : records.back()->aims) {
                    saidAims_.insert(id);
                }
            }
        }
        for (const std::size_t visit : read_.said.visitOfSection) {
            sections_.push_back(records[visit]);
        }
    }

    [[nodiscard]] std::optional<Id<Visit>> visitNamed(const PageSection& section) const {
        const Swim* swim = findSwim(plan_.book(), page_.water, section.swim);
        const Visit* visit = swim != nullptr && section.date
                                 ? findVisit(plan_.book(), swim->id, *section.date)
                                 : nullptr;
        return visit != nullptr ? std::optional(visit->id) : std::nullopt;
    }

    /// How the visit that `said` names stood before; where there is none of that swim and date, the
    /// one that its section named until now, if that is the page's alone and named nowhere else.
    [[nodiscard]] VisitBefore beforeOf(const SaidOfVisit& said) const {
        const auto before = [&](Id<Visit> id) {
            const auto known = former_.visits.find(id);
            return known != former_.visits.end() ? known->second
                                                 : VisitBefore{.said = nullptr, .shared = true};
        };
        if (const auto named = visitNamed(said.section)) {
            return before(*named);
        }
        const auto candidate = said.firstSection < former_.visitOfSection.size()
                                   ? former_.visitOfSection[said.firstSection]
                                   : std::nullopt;
        const bool isNamed = std::any_of(
            read_.said.visits.begin(), read_.said.visits.end(), [&](const SaidOfVisit& other) {
                return !other.waits() && visitNamed(other.section) == candidate;
            });
        if (!candidate || isNamed || before(*candidate).shared) {
            return {};
        }
        VisitBefore renamed = before(*candidate);
        renamed.renamed = candidate;
        return renamed;
    }

    /// A cast keeps its identity as long as one of its lines does; where its lines went apart, that
    /// of most of them.
    void keepCastIds() {
        castIds_.resize(read_.meaning.casts.size());
        std::map<std::pair<std::size_t, Id<Cast>>, int>
            lines; // by cast on the page and in the book
        for (std::size_t i = 0; i < read_.meaning.readings.size(); ++i) {
            const std::size_t cast = read_.meaning.readings[i].castIndex;
            const PageLine* line = formerLine(readingLines_[i]);
            if (sections_[read_.meaning.casts[cast].section] && line != nullptr && line->reading) {
                ++lines[{cast, plan_.book().get(*line->reading).cast}];
            }
        }
        std::vector<std::pair<std::pair<std::size_t, Id<Cast>>, int>> most(
            lines.begin(), lines.end());
        std::stable_sort(most.begin(), most.end(), [](const auto& a, const auto& b) {
            return a.second > b.second;
        });
        for (const auto& [pair, count] : most) {
            Id<Cast>& id = castIds_[pair.first];
            if (!id.isValid() && keptCasts_.insert(pair.second).second) {
                id = pair.second;
            }
        }
    }

    void putCasts() {
        keepCastIds();
        std::map<Id<Visit>, int> orders;
        for (std::size_t i = 0; i < read_.meaning.casts.size(); ++i) {
            const CastDraft& draft = read_.meaning.casts[i];
            if (const auto& section = sections_[draft.section]) {
                putCast(castIds_[i], draft, *section, ++orders[section->visit]);
            }
        }
    }

    void putCast(Id<Cast>& id, const CastDraft& draft, const VisitRecords& section, int order) {
        Cast cast;
        if (id.isValid()) {
            cast = plan_.book().get(id);
        } else {
            id = plan_.newId<Cast>();
            cast.id = id;
        }
        keptCasts_.insert(id);
        cast.visit = section.visit;
        cast.order = order;
        cast.aim = draft.aim.empty() ? std::nullopt : std::optional(section.aims.at(draft.aim));
        cast.reel = draft.reel.empty() ? std::nullopt
                                       : std::optional(reelNamed(plan_, draft.reel, notices_));
        plan_.put(std::move(cast));
    }

    void putReadings() {
        readingIds_.resize(read_.meaning.readings.size());
        std::map<std::size_t, int> orders;
        for (std::size_t i = 0; i < read_.meaning.readings.size(); ++i) {
            const ReadingDraft& draft = read_.meaning.readings[i];
            const CastDraft& cast = read_.meaning.casts[draft.castIndex];
            const int order = ++orders[draft.castIndex];
            if (!sections_[cast.section]) {
                continue; // waits for a swim and a date
            }
            Reading reading = draft.reading;
            const PageLine* line = formerLine(readingLines_[i]);
            const bool there =
                line != nullptr && line->reading && !keptReadings_.contains(*line->reading);
            reading.id = there ? *line->reading : plan_.newId<Reading>();
            if (there) {
                reading.source = plan_.book().get(reading.id).source;
            }
            reading.cast = castIds_[draft.castIndex];
            reading.order = order;
            readingIds_[i] = reading.id;
            keptReadings_.insert(reading.id);
            plan_.put(std::move(reading));
        }
    }

    void putSpots() {
        spotIds_.resize(read_.meaning.spots.size());
        for (std::size_t i = 0; i < read_.meaning.spots.size(); ++i) {
            const SpotDraft& draft = read_.meaning.spots[i];
            if (sections_[draft.section]) {
                spotIds_[i] = putSpot(draft, spotLines_[i], *sections_[draft.section]);
                keptSpots_.insert(spotIds_[i]);
            }
        }
    }

    /// By its name; a line whose name alone changed renames its spot, unless another line still
    /// speaks of the old one.
    Spot spotFor(const SpotDraft& draft, std::size_t line) {
        for (const Spot& spot : plan_.book().all<Spot>()) {
            if (spot.water == page_.water && spot.name == draft.name) {
                return spot;
            }
        }
        const PageLine* before = formerLine(line);
        const Spot* renamed =
            before != nullptr && before->spot ? plan_.book().find(*before->spot) : nullptr;
        const bool stillNamed = renamed != nullptr && std::any_of(
                                                          read_.meaning.spots.begin(),
                                                          read_.meaning.spots.end(),
                                                          [&](const SpotDraft& other) {
                                                              return other.name == renamed->name;
                                                          });
        if (renamed != nullptr && !stillNamed) {
            return *renamed;
        }
        Spot spot;
        spot.id = plan_.newId<Spot>();
        spot.water = page_.water;
        return spot;
    }

    /// The lengths that this visit used take the place of its earlier ones; those of other visits
    /// stay.
    Id<Spot> putSpot(const SpotDraft& draft, std::size_t line, const VisitRecords& section) {
        Spot spot = spotFor(draft, line);
        spot.name = draft.name;
        const auto* onAim = std::get_if<OnAim>(&spot.place);
        const bool ours = onAim != nullptr && plan_.book().get(onAim->aim).visit == section.visit;
        // The first line of the page that names a spot of the page's own says where it is.
        const bool first = !keptSpots_.contains(spot.id);
        const bool decides = first && former_.spots.contains(spot.id);
        if (ours || decides || spot.place == SpotPlace{Place{}}) {
            spot.place = OnAim{.aim = section.aims.at(draft.aim), .lineOut = draft.lineOut};
        }
        std::erase_if(spot.lengths, [&](const LengthUsed& used) {
            // On the first mention also those of the page's other visits, which its lines say anew.
            const bool ofThisPage = used.visit && (former_.visits.contains(*used.visit) ||
                                                   keptVisits_.contains(*used.visit));
            return used.visit == section.visit || (first && ofThisPage);
        });
        for (LengthUsed used : draft.lengths) {
            used.visit = section.visit;
            spot.lengths.push_back(std::move(used));
        }
        if (!draft.note.empty() || (first && former_.spots.contains(spot.id))) {
            spot.note = draft.note;
        }
        const Id<Spot> id = spot.id;
        plan_.put(std::move(spot));
        return id;
    }

    void putLines() {
        std::set<Id<PageLine>> kept;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            const LineMeaning& meaning = read_.meaning.lines[i];
            PageLine line;
            const bool there = formerLine(i) != nullptr && !kept.contains(*lines_[i].id);
            line.id = there ? *lines_[i].id : plan_.newId<PageLine>();
            kept.insert(line.id);
            line.page = page_.id;
            line.order = static_cast<int>(i) + 1;
            line.text = lines_[i].text;
            line.kind = meaning.kind;
            if (meaning.draft && meaning.kind == LineKind::Reading) {
                line.reading = valid(readingIds_[*meaning.draft]);
            }
            if (meaning.draft && meaning.kind == LineKind::Spot) {
                line.spot = valid(spotIds_[*meaning.draft]);
            }
            plan_.put(std::move(line));
        }
        for (const auto& [id, line] : former_.lines) {
            if (!kept.contains(id)) {
                plan_.removeIfUnused(id);
            }
        }
    }

    template <class Record>
    static std::optional<Id<Record>> valid(Id<Record> id) {
        return id.isValid() ? std::optional(id) : std::nullopt;
    }

    template <class Record>
    void removeAllBut(const std::set<Id<Record>>& former, const std::set<Id<Record>>& kept) {
        for (const Id<Record> id : former) {
            if (!kept.contains(id)) {
                plan_.removeIfUnused(id);
            }
        }
    }

    /// What only this page had said, and no longer says. Children go before their parents; whatever
    /// something else uses stays, and so does a swim, mark or reel about which more is known than
    /// its name.
    void removeLeftovers() {
        removeAllBut(former_.readings, keptReadings_);
        removeAllBut(former_.casts, keptCasts_);
        for (const Id<Spot> id : former_.spots) {
            const Spot* spot = keptSpots_.contains(id) ? nullptr : plan_.book().find(id);
            if (spot != nullptr && std::holds_alternative<OnAim>(spot->place)) {
                plan_.removeIfUnused(id);
            }
        }
        removeAims();
        for (const auto& [id, before] : former_.visits) {
            if (!keptVisits_.contains(id)) {
                leaveVisit(plan_, id, before);
            }
        }
        removeBare(plan_, page_.water, former_, read_.meaning);
    }

    void removeAims() {
        // Leftover aims may hang on one another, at most all in one chain.
        for (std::size_t round = 0; round < former_.aims.size(); ++round) {
            removeAllBut(former_.aims, saidAims_);
        }
    }

    EditPlan plan_;
    const Page& page_;
    const std::vector<TypedLine>& lines_;
    PageAsRead read_;
    FormerPage former_;
    std::vector<std::size_t> readingLines_;
    std::vector<std::size_t> spotLines_;
    std::vector<std::optional<VisitRecords>> sections_;
    std::vector<std::string> notices_;
    std::vector<Id<Cast>> castIds_;
    std::vector<Id<Reading>> readingIds_;
    std::vector<Id<Spot>> spotIds_;
    std::set<Id<Cast>> keptCasts_;
    std::set<Id<Reading>> keptReadings_;
    std::set<Id<Spot>> keptSpots_;
    std::set<Id<Visit>> keptVisits_;
    std::set<Id<Aim>> saidAims_;
};

} // namespace

PageAsRead readAs(std::vector<std::string> texts, PageContext context) {
    PageAsRead read{
        .texts = std::move(texts), .context = std::move(context), .meaning = {}, .said = {}};
    read.meaning = readPage(read.texts, read.context);
    read.said = saidByPage(read.meaning);
    return read;
}

bool isReadFrom(
    const PageAsRead* read, const std::vector<std::string>& texts, const PageContext& context) {
    return read != nullptr && read->texts == texts && read->context == context;
}

Result<PageUpdate> updatePage(
    const Book& book,
    const Page& page,
    const std::vector<TypedLine>& lines,
    IdSource& ids,
    const FormerReading& former) {
    if (book.find(page.water) == nullptr) {
        return fail(inputError("The page's water is not in this book."));
    }
    return Updater(book, page, lines, ids, former).run();
}

std::string pageText(const Book& book, Id<Page> page) {
    std::string text;
    for (const PageLine* line : linesOf(book, page)) {
        text += line->text + "\n";
    }
    return text;
}

} // namespace bedlore
