// SPDX-License-Identifier: MIT
#include "gui/window/tour_guide.hpp"

#include "gui/document/practice_book.hpp"
#include "gui/document/tour_slips.hpp"
#include "gui/document/tour_words.hpp"
#include "gui/panels/tour_panel.hpp"
#include "gui/window/main_window.hpp"

#include <system_error>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

TourStep stepAt(std::size_t index) {
    return static_cast<TourStep>(index);
}

std::size_t indexOf(TourStep step) {
    return static_cast<std::size_t>(step);
}

bool isWellDone(const Book& book, TourStep step) {
    return tourState(book, step) == TourState::Done && !tourSlip(book, step);
}

/// Whether a step asks for something to be written.
bool asksForALine(TourStep step) {
    return !tourWords(step).done.isEmpty();
}

/// What each step may come to say, at its longest: praise, or what is not right yet.
std::vector<TourPage> longestPages() {
    std::vector<TourPage> pages;
    QString before; // praise for the step before, which stands beside this one
    for (std::size_t i = 0; i < tourStepCount; ++i) {
        const TourWords words = tourWords(stepAt(i));
        QString longest;
        for (const QString& said : {before, words.done, words.otherwise}) {
            longest = said.size() > longest.size() ? said : longest;
        }
        pages.push_back(
            {.number = static_cast<int>(i) + 1,
             .count = static_cast<int>(tourStepCount),
             .title = words.title,
             .praise = longest,
             .text = words.text,
             .remark = {},
             .caution = words.caution});
        before = words.done;
    }
    return pages;
}

} // namespace

TourGuide::TourGuide(MainWindow& window, const std::filesystem::path& practice)
    : QObject(&window)
    , window_(window)
    , practice_(practice.empty() ? usualPracticePath() : practice)
    , panel_(new TourPanel) {
    panel_->hide();
    panel_->setPages(longestPages());
    connect(panel_, &TourPanel::placeWanted, this, &TourGuide::goToPlace);
    connect(panel_, &TourPanel::onWanted, this, &TourGuide::goOn);
    connect(panel_, &TourPanel::backWanted, this, &TourGuide::goBack);
    connect(panel_, &TourPanel::closeWanted, this, &TourGuide::close);
    connect(panel_, &TourPanel::anewWanted, this, &TourGuide::askAnew);
    connect(panel_, &TourPanel::anewConfirmed, this, &TourGuide::beginAnew);
    connect(panel_, &TourPanel::anewDeclined, this, [this] {
        refresh();
        window_.goToPage();
    });
}

bool TourGuide::isPractice() const {
    std::error_code error;
    return window_.desk() != nullptr &&
           std::filesystem::equivalent(window_.desk()->document().path(), practice_, error);
}

void TourGuide::open() {
    if (!isPractice()) {
        std::error_code error;
        if (!std::filesystem::exists(practice_, error)) {
            if (const Result<void> made = makePracticeBook(practice_); !made) {
                Q_EMIT warned(QString::fromStdString(made.error().message));
                return;
            }
        }
        if (!window_.openBook(practice_)) {
            return; // the window has said why
        }
    }
    show(true);
}

void TourGuide::follow(Desk& desk) {
    leave();
    if (!isPractice()) {
        return;
    }
    desk_ = &desk;
    connect(&desk.document(), &Document::changed, this, &TourGuide::followBook);
    connect(&desk.builder(), &BedBuilder::built, this, &TourGuide::chooseAim);
    const QString kept = window_.settings().tourStep();
    step_ = tourStepNamed(kept.toStdString()).value_or(TourStep::Welcome);
    praised_.reset();
    show(window_.settings().tourIsOpen());
}

void TourGuide::leave() {
    desk_ = nullptr;
    lookFor_.reset();
    panel_->hide();
}

void TourGuide::show(bool open) {
    window_.settings().keepTourIsOpen(open);
    refresh();
    panel_->setVisible(open && desk_ != nullptr);
}

void TourGuide::close() {
    show(false);
    window_.goToPage();
}

void TourGuide::goTo(TourStep step, std::optional<TourStep> praised) {
    step_ = step;
    praised_ = praised;
    const std::string_view name = tourStepName(step);
    window_.settings().keepTourStep(
        QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())));
    refresh();
}

void TourGuide::goOn() {
    if (indexOf(step_) + 1 < tourStepCount) {
        goTo(stepAt(indexOf(step_) + 1));
    }
}

void TourGuide::goBack() {
    if (indexOf(step_) > 0) {
        goTo(stepAt(indexOf(step_) - 1));
    }
}

void TourGuide::followBook() {
    if (desk_ == nullptr || panel_->isHidden() || panel_->isAsking()) {
        return;
    }
    if (!isDone_ && isWellDone(*desk_->document().book(), step_)) {
        goTo(stepAt(indexOf(step_) + 1), step_);
    } else {
        refresh();
    }
}

/// Praise stands only as long as the book shows what it is for.
QString TourGuide::praise(const Book& book) const {
    if (isDone_) {
        return tourWords(step_).done;
    }
    return praised_ && isWellDone(book, *praised_) ? tourWords(*praised_).done : QString();
}

QString TourGuide::remark(const Book& book) const {
    QStringList said;
    if (tourState(book, step_) == TourState::Otherwise) {
        said << tourWords(step_).otherwise;
    }
    auto slip = asksForALine(step_) ? tourSlip(book, step_) : std::nullopt;
    if (praised_ && tourState(book, *praised_) != TourState::Done) {
        said << tr("What the step before this asked for is taken back. Ctrl+Shift+Z brings it "
                   "again; Shift+F8 goes back to the step.");
    } else if (praised_ && !slip) {
        slip = tourSlip(book, *praised_);
    }
    if (slip) {
        const QString words =
            slip->stillStands
                ? tr("The line “%1” does not say what it said: something above it is changed. If "
                     "that was a slip, Ctrl+Z takes it back.")
                : tr("The line “%1” stood on the page and is not there any more. If that was a "
                     "slip, Ctrl+Z takes it back.");
        said << words.arg(QString::fromStdString(slip->line));
    }
    return said.join(u' ');
}

void TourGuide::refresh() {
    if (desk_ == nullptr) {
        return;
    }
    const Book& book = *desk_->document().book();
    isDone_ = isWellDone(book, step_);
    const TourWords words = tourWords(step_);
    panel_->show(
        {.number = static_cast<int>(indexOf(step_)) + 1,
         .count = static_cast<int>(tourStepCount),
         .title = words.title,
         .praise = praise(book),
         .text = words.text,
         .remark = remark(book),
         .caution = words.caution,
         .hasPlace = tourLine(book, step_).has_value()});
}

void TourGuide::goToPlace() {
    const auto place = desk_ != nullptr ? tourLine(*desk_->document().book(), step_) : std::nullopt;
    if (!place) {
        return;
    }
    window_.showPanel(Desk::Panel::Page, true);
    desk_->goTo(whereaboutsOf(*desk_->document().book(), place->visit));
    PageEditor& editor = desk_->page().editor();
    editor.goToLine(place->line);
    editor.centerCursor();
    desk_->page().setFocus(Qt::ShortcutFocusReason);
    lookFor_ = *place;
    chooseAim();
}

/// The aims of another swim are there once its map is: until then the wish waits.
void TourGuide::chooseAim() {
    const auto map = desk_ != nullptr ? desk_->builder().map() : nullptr;
    if (!lookFor_ || map == nullptr || map->request.swim != desk_->whereabouts().swim) {
        return;
    }
    for (std::size_t i = 0; i < desk_->aims().size(); ++i) {
        if (desk_->aims()[i].label == lookFor_->aim) {
            desk_->chooseAim(i);
        }
    }
    lookFor_.reset();
}

void TourGuide::askAnew() {
    if (desk_ == nullptr) {
        return;
    }
    const std::filesystem::path kept = nameToKeepUnder(practice_);
    panel_->ask(tr("The practice pages are made new, mistakes and all, and the tour begins again. "
                   "Yours, with all that you changed, are kept beside them as “%1”.")
                    .arg(QString::fromStdString(kept.stem().string())));
}

void TourGuide::beginAnew() {
    if (desk_ == nullptr) {
        return;
    }
    if (!desk_->document().isWritable()) {
        refresh();
        Q_EMIT warned(tr("This book is open for reading only, so it stays as it is. Close it "
                         "where else it is open, and start again then."));
        return;
    }
    if (!window_.closeBook()) {
        return;
    }
    const Result<std::filesystem::path> kept = restorePracticeBook(practice_);
    if (kept) {
        goTo(TourStep::Welcome);
    }
    window_.openBook(practice_);
    if (!kept) {
        Q_EMIT warned(QString::fromStdString(kept.error().message));
    }
}

} // namespace bedlore

#include "moc_tour_guide.cpp"
