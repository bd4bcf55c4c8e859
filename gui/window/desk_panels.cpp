// SPDX-License-Identifier: MIT
#include "gui/window/desk.hpp"

#include <QSplitter>
#include <QStackedWidget>

#include <algorithm>
#include <iterator>
#include <numeric>
#include <utility>

// The panels that list: the aims with what was felt along them, and his own shorthand.

namespace bedlore {

void Desk::connectPanels() {
    connect(aimsPanel_, &AimsPanel::aimChosen, this, [this](std::size_t aim) { chooseAim(aim); });
    connect(aimsPanel_, &AimsPanel::readingChosen, this, &Desk::goToLineOf);
    connect(aimsPanel_, &AimsPanel::lineWanted, this, [this](Id<Reading> reading) {
        goToLineOf(reading);
        left_->currentWidget()->setFocus();
    });
    connect(
        shorthand_,
        &ShorthandPanel::teachWanted,
        this,
        [this](const QString& word, const QString& meaning) {
            IdSource ids = document_->freeIds();
            if (applyTaught(
                    tr("taught %1").arg(word.trimmed()),
                    teach(*document_->book(), word.toStdString(), meaning.toStdString(), ids))) {
                shorthand_->clearFields();
            }
        });
    connect(
        shorthand_,
        &ShorthandPanel::answerWanted,
        this,
        [this](const Taught& taught, const QString& value) {
            applyTaught(
                tr("changed an answer"),
                answerAnew(*document_->book(), taught, value.toStdString()));
        });
    connect(shorthand_, &ShorthandPanel::forgetWanted, this, [this](const Taught& taught) {
        applyTaught(
            tr("forgot %1").arg(QString::fromStdString(taught.asked)),
            forget(*document_->book(), taught.record));
    });
    connect(document_.get(), &Document::changed, this, &Desk::refreshShorthand);
}

/// Tab goes as the eye does: down the page and what stands under it, the plan, the side view, the
/// chosen place.
void Desk::setTabChain() {
    QWidget* last = &page_->editor();
    const auto then = [&last](QWidget* next) {
        QWidget::setTabOrder(last, next);
        last = next;
    };
    then(visit_->focusProxy());
    then(aimsPanel_->focusProxy());
    for (QWidget* part : shorthand_->tabChain()) {
        then(part);
    }
    then(plan_);
    then(section_);
    then(placePanel_->focusProxy());
}

void Desk::showPanel(Panel which, bool shown) {
    QWidget& wanted = panel(which);
    const bool hadKeys = wanted.isAncestorOf(focusWidget()) || &wanted == focusWidget();
    wanted.setVisible(shown);
    leftColumn_->setVisible(
        !left_->isHidden() || !aimsPanel_->isHidden() || !shorthand_->isHidden());
    if (shown && which == Panel::Aims) {
        showAimsList();
    }
    if (shown && which == Panel::Shorthand) {
        refreshShorthand();
    }
    if (shown && (which == Panel::Aims || which == Panel::Shorthand)) {
        giveRoom(wanted);
        wanted.setFocus(Qt::ShortcutFocusReason);
    } else if (!shown && hadKeys) {
        (left_->isHidden() ? static_cast<QWidget*>(plan_) : left_->currentWidget())->setFocus();
    }
}

/// What comes up under the page has a third of the column at least, from the one that has most,
/// as far as that one needs it not itself.
void Desk::giveRoom(QWidget& listed) {
    QList<int> heights = leftColumn_->sizes();
    const auto at = static_cast<qsizetype>(leftColumn_->indexOf(&listed));
    const int least = std::accumulate(heights.begin(), heights.end(), 0) / 3;
    const auto most = std::max_element(heights.begin(), heights.end());
    const auto giver = static_cast<int>(std::distance(heights.begin(), most));
    const int spare = *most - leftColumn_->widget(giver)->minimumSizeHint().height();
    const int given = std::min(least - heights[at], spare);
    if (given > 0) {
        *most -= given;
        heights[at] += given;
        leftColumn_->setSizes(heights);
    }
}

void Desk::showAimsList() {
    const auto bed = map();
    if (aimsPanel_->isHidden()) {
        return;
    }
    if (bed == nullptr) {
        aimsPanel_->show(nullptr, {}, preferences_.units);
    } else {
        aimsPanel_->show(bed, aims_, preferences_.units);
        aimsPanel_->setChosen(aim_, std::nullopt);
    }
}

void Desk::goToLineOf(Id<Reading> reading) {
    showReading(reading);
    if (left_->currentWidget() == visit_) {
        visit_->choose(reading);
        return;
    }
    for (const PageLine& line : document_->book()->all<PageLine>()) {
        if (line.reading == reading) {
            if (page_->page() != line.page) {
                if (!page_->keep()) {
                    return;
                }
                page_->open(line.page);
            }
            page_->goToLine(line.id);
            return;
        }
    }
}

void Desk::refreshShorthand() {
    if (!shorthand_->isHidden()) {
        shorthand_->show(taughtIn(*document_->book()), document_->isWritable());
    }
}

bool Desk::applyTaught(const QString& label, Result<Edits> taught) {
    if (!taught) {
        shorthand_->say(QString::fromStdString(taught.error().message));
        return false;
    }
    if (!page_->keep()) {
        return false;
    }
    const auto book = document_->book();
    IdSource ids(std::max(document_->freeIds().next(), largestId(*taught) + 1));
    const Result<Edits> edits = withPagesReread(*book, std::move(*taught), ids);
    if (!edits) {
        shorthand_->say(QString::fromStdString(edits.error().message));
        return false;
    }
    return document_->apply(label.toStdString(), *edits).has_value();
}

void Desk::teachWord() {
    const QString word = page_->editor().chosenWord();
    if (!page_->keep()) {
        return;
    }
    showPanel(Panel::Shorthand, true);
    shorthand_->begin(word);
}

} // namespace bedlore
