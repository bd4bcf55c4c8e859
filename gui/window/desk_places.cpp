// SPDX-License-Identifier: MIT
#include "gui/document/level_words.hpp"
#include "gui/document/waiting_pages.hpp"
#include "gui/window/desk.hpp"

#include <QStackedWidget>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

// How the parts of the desk follow the book, the bed and each other.

namespace bedlore {

namespace {

/// Sentences about readings that could not be used and levels that nobody said, for their lines on
/// the page.
PageRemarks remarksOf(const BedMap& map, Unit depthUnit) {
    PageRemarks remarks;
    for (const ReductionNotice& notice : map.reduction.notices) {
        const auto* reading = notice.about ? std::get_if<Id<Reading>>(&*notice.about) : nullptr;
        if (reading != nullptr && notice.refused) {
            remarks.readings[*reading] = QString::fromStdString(notice.sentence);
        }
    }
    for (const auto& [visit, sentence] : levelRemarks(map, depthUnit)) {
        remarks.levels[visit] = QString::fromStdString(sentence);
    }
    return remarks;
}

/// What depths at a place count from, and what of it nobody said.
QString levelWordsAt(const BedPicture& picture, Point place, const DisplayUnits& units) {
    const QString words = QString::fromStdString(picture.drawing->levelWords);
    const QString remark = QString::fromStdString(levelRemarkAt(*picture.bed, place, units.depth));
    return remark.isEmpty() ? words : words + QStringLiteral("; ") + remark;
}

/// "Aim C of A, B, C chosen": what a screen reader says of the plan's letters.
QString describePlan(const std::vector<AimLine>& aims, std::optional<std::size_t> aim) {
    if (aims.empty()) {
        return Desk::tr("No casts to show yet.");
    }
    QStringList letters;
    for (const AimLine& one : aims) {
        letters << QString::fromStdString(one.label);
    }
    const QString all = letters.join(QStringLiteral(", "));
    const bool guessed =
        std::any_of(aims.begin(), aims.end(), [](const AimLine& one) { return one.guessed; });
    const QString words = aim && *aim < aims.size()
                              ? Desk::tr("Aim %1 chosen, of %2 from left to right.")
                                    .arg(letters[static_cast<qsizetype>(*aim)], all)
                              : Desk::tr("Aims %1 from left to right.").arg(all);
    return guessed ? Desk::tr("%1 Angles guessed.").arg(words) : words;
}

} // namespace

void Desk::settle(const Whereabouts& wanted) {
    where_ = settled(*document_->book(), wanted);
    if (where_.water) {
        builder_.show({.water = *where_.water, .swim = where_.swim});
    }
    // What waits may have changed without the bed.
    const auto bed = map();
    const auto shown = pictureToShow();
    if (bed != nullptr && where_.water == bed->request.water && bed->reduction.soundings.empty()) {
        plan_->setPicture(shown);
        pointAgain();
    }
    Q_EMIT moved();
}

/// The picture of the bed. Where no depth is on it yet, it says what waits for a word on its page,
/// if anything does; without a single reading there is only the paper with those words.
std::shared_ptr<const BedPicture> Desk::pictureToShow() {
    auto picture = builder_.picture();
    const bool isOurs = picture != nullptr && where_.water == picture->bed->request.water;
    const bool isEmpty = isOurs && picture->bed->reduction.soundings.empty();
    const std::string waiting =
        isEmpty ? waitingReadingsWords(*document_->book(), *where_.water) : std::string();
    plan_->setEmptyWords(
        waiting.empty()
            ? tr("The bed appears here as soon as the page says what was felt and how far out.")
            : QString::fromStdString(waiting));
    if (!isOurs || (!waiting.empty() && picture->bed->reduction.readings.empty())) {
        return nullptr;
    }
    if (waiting.empty()) {
        return picture;
    }
    return withEmptyWords(*picture, "No depth is on the map yet. " + waiting);
}

/// The bed has changed under the pointer, or is gone: what was said of it no longer holds.
void Desk::pointAgain() {
    Q_EMIT readout({});
    plan_->pointAgain();
}

void Desk::goTo(const Whereabouts& where) {
    if (!page_->keep()) {
        return;
    }
    settle(where);
    showPageOf(where_);
    followBed();
}

void Desk::goToPage(Id<Page> page) {
    if (page_->keep()) {
        left_->setCurrentWidget(page_);
        page_->open(page);
        page_->setFocus();
    }
}

void Desk::goOnFrom(std::optional<Id<Page>> left) {
    const auto book = document_->book();
    const bool isThere = left && book->find(*left) != nullptr;
    const auto page = isThere ? left : lastWaitingPage(*book);
    if (!page || page == shownPage()) {
        return;
    }
    if (const Id<Water> water = book->get(*page).water; where_.water != water) {
        settle({.water = water, .swim = {}, .visit = {}});
    }
    goToPage(*page);
}

std::optional<Id<Page>> Desk::shownPage() const {
    return left_->currentWidget() == page_ ? page_->page() : std::nullopt;
}

bool Desk::showsNewPage() const {
    return left_->currentWidget() == page_ && !page_->page();
}

void Desk::showPageOf(const Whereabouts& where) {
    const auto book = document_->book();
    const auto page = where.visit ? pageOf(*book, *where.visit) : std::nullopt;
    if (page) {
        left_->setCurrentWidget(page_);
        page_->open(*page);
    } else if (where.visit) {
        visit_->show(book, *where.visit);
        left_->setCurrentWidget(visit_);
        Q_EMIT moved();
    } else if (where.water && !pagesOf(*book, *where.water).empty()) {
        left_->setCurrentWidget(page_);
        page_->open(pagesOf(*book, *where.water).back()->id);
    } else {
        newPage();
    }
}

void Desk::goToFound(const FoundPlace& place) {
    const auto where = whereFound(*document_->book(), place);
    if (!where || !page_->keep()) {
        return;
    }
    left_->show();
    goTo(*where);
    if (const auto* found = std::get_if<FoundOnPage>(&place)) {
        goToPage(found->page);
        page_->editor().goToLine(found->line);
    } else if (const auto* reading = std::get_if<Id<Reading>>(&place)) {
        goToLineOf(*reading);
    }
    left_->currentWidget()->setFocus();
}

void Desk::newPage() {
    if (!page_->keep()) {
        return;
    }
    const Swim* swim = where_.swim ? document_->book()->find(*where_.swim) : nullptr;
    left_->setCurrentWidget(page_);
    page_->begin(where_.water, swim != nullptr ? QString::fromStdString(swim->name) : QString());
    page_->setFocus();
}

std::optional<Id<Page>> Desk::touchedPage(const Change& change) const {
    const auto book = document_->book();
    for (const AnyId& id : change.touched) {
        const auto* line = std::get_if<Id<PageLine>>(&id);
        if (line == nullptr) {
            continue;
        }
        const PageLine* record = book->find(*line);
        if (record == nullptr) {
            record = lastBook_->find(*line);
        }
        if (record != nullptr && book->find(record->page) != nullptr) {
            return record->page;
        }
    }
    return std::nullopt;
}

void Desk::followChange(const Change& change) {
    const auto page = touchedPage(change);
    lastBook_ = document_->book();
    warnedAtClose_ = false;
    // Undo of what was typed on another page shows that page: nothing changes out of sight.
    if (page && page_->page() != page && !page_->hasUnkept()) {
        left_->setCurrentWidget(page_);
        page_->open(*page);
    }
    followPage();
    if (where_.visit && left_->currentWidget() == visit_) {
        visit_->show(lastBook_, *where_.visit);
    }
}

void Desk::followPage() {
    const auto book = document_->book();
    const auto page = page_->page();
    Whereabouts wanted = where_;
    if (page && left_->currentWidget() == page_) {
        const bool here = where_.visit && isOfVisit(*book, *page, *where_.visit);
        const auto visits = here ? std::vector<Id<Visit>>{} : visitsOf(*book, *page);
        if (!visits.empty()) {
            wanted = whereaboutsOf(*book, visits.back());
        }
    }
    settle(wanted);
}

void Desk::followBed() {
    const auto picture = builder_.picture();
    const bool isOurs = picture != nullptr && where_.water == picture->bed->request.water;
    if (!isOurs) {
        aims_.clear();
        aim_.reset();
        plan_->setPicture(nullptr);
        plan_->setAims({});
        pointAgain();
        section_->setMap(nullptr, {});
        showAimsList();
        showPlace();
        return;
    }
    const std::optional<std::string> label =
        aim_ ? std::optional(aims_[*aim_].label) : std::nullopt;
    aims_ = aimLines(*picture->bed, where_.visit);
    aim_.reset();
    for (std::size_t i = 0; i < aims_.size(); ++i) {
        if (label && aims_[i].label == *label) {
            aim_ = i;
        }
    }
    if (!aim_ && !aims_.empty()) {
        aim_ = 0;
    }
    followReading();
    plan_->setAims(aims_);
    plan_->setPicture(pictureToShow());
    plan_->setChosenAim(aim_);
    plan_->setChosenPlace(place_);
    // At once, before the lists: the fit that comes behind would take the processors from it.
    plan_->repaint();
    PageRemarks remarks = remarksOf(*picture->bed, preferences_.units.depth);
    const auto level = where_.visit ? remarks.levels.find(*where_.visit) : remarks.levels.end();
    visit_->setRemark(level != remarks.levels.end() ? level->second : QString());
    page_->setRemarks(std::move(remarks));
    section_->setMap(picture->bed, aims_);
    showAimsList();
    chooseAim(aim_);
    pointAgain();
}

void Desk::chooseAim(std::optional<std::size_t> aim) {
    aim_ = aim;
    plan_->setChosenAim(aim);
    section_->setChosenAim(aim);
    aimsPanel_->setChosen(aim, std::nullopt);
    showPlace();
}

void Desk::choosePlace(std::optional<Point> place) {
    place_ = place;
    placeOf_.reset();
    const auto bed = map();
    if (place && bed != nullptr && bed->standing() != nullptr) {
        if (const auto aim = nearestAim(aims_, bed->standing()->tip, *place)) {
            chooseAim(aim);
            return;
        }
    }
    showPlace();
}

void Desk::showPlace() {
    const auto bed = map();
    plan_->setChosenPlace(place_);
    if (!place_ || bed == nullptr) {
        placePanel_->show(std::nullopt);
        section_->setChosenRange(std::nullopt);
        plan_->describe(describePlan(aims_, aim_));
        return;
    }
    const PlaceReadout readout = readPlace(*bed, aims_, *place_, preferences_.units);
    placePanel_->setLevelWords(levelWordsAt(*builder_.picture(), *place_, preferences_.units));
    placePanel_->show(readout);
    plan_->describe(tr("Chosen: %1. %2")
                        .arg(QString::fromStdString(readout.line()), describePlan(aims_, aim_)));
    std::optional<Length> range;
    if (aim_ && *aim_ < aims_.size()) {
        // Only a place that lies on the aim has a place on its side view.
        const AimLine& aim = aims_[*aim_];
        const Angle aside = directionTo(aim.tip, *place_) - aim.direction;
        const double out = std::hypot(place_->east - aim.tip.east, place_->north - aim.tip.north);
        if (std::abs(out * std::sin(aside.si())) < 2.0 && std::abs(aside / degree) < 90.0) {
            range = out * std::cos(aside.si()) * metre;
        }
    }
    section_->setChosenRange(range);
}

void Desk::followReading() {
    if (!placeOf_) {
        return;
    }
    const auto& readings = map()->reduction.readings;
    const auto found =
        std::find_if(readings.begin(), readings.end(), [this](const PlacedReading& one) {
            return one.reading == *placeOf_;
        });
    if (found != readings.end()) {
        place_ = found->place;
    } else if (document_->book()->find(*placeOf_) == nullptr) {
        choosePlace(std::nullopt);
    }
}

void Desk::showReading(Id<Reading> reading) {
    const auto bed = map();
    if (bed == nullptr) {
        return;
    }
    for (const PlacedReading& placed : bed->reduction.readings) {
        if (placed.reading != reading) {
            continue;
        }
        for (std::size_t i = 0; i < aims_.size(); ++i) {
            const auto& casts = aims_[i].casts;
            if (std::find(casts.begin(), casts.end(), placed.cast) != casts.end()) {
                chooseAim(i);
            }
        }
        if (placed.place) {
            place_ = placed.place;
            placeOf_ = reading;
            showPlace();
        }
        aimsPanel_->setChosen(aim_, reading);
    }
}

void Desk::sayReadout(Point place) {
    const auto bed = map();
    if (bed != nullptr) {
        const QString words =
            QString::fromStdString(readPlace(*bed, aims_, place, preferences_.units).line());
        // The card tells of the chosen place, the foot of another: which one is said.
        Q_EMIT readout(
            (plan_->isPointedByKeys() ? tr("under the cross: %1") : tr("under the pointer: %1"))
                .arg(words));
        plan_->describe(tr("Here: %1").arg(words));
    }
}

void Desk::undo() {
    // A line that Return has just opened is the last thing that he did, and in no book yet.
    if (page_->editor().hasFocus() && page_->editor().closeOpenedLine()) {
        return;
    }
    // What is typed and not kept yet is the last thing that he did: kept first, so that redo has it
    // and a full disk takes nothing from the page. A line that was kept in a pause goes as a whole.
    if (!page_->keep()) {
        return;
    }
    static_cast<void>(document_->undo()); // a failure is said by the document
}

void Desk::redo() {
    if (!page_->hasUnkept()) {
        static_cast<void>(document_->redo());
    }
}

} // namespace bedlore
