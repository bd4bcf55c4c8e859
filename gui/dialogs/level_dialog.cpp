// SPDX-License-Identifier: MIT
#include "gui/dialogs/level_dialog.hpp"

#include "gui/dialogs/dialog_parts.hpp"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace bedlore {

LevelDialog::LevelDialog(Document& document, Id<Water> water, Unit unit, QWidget* parent)
    : QDialog(parent)
    , document_(document)
    , water_(water)
    , unit_(unit) {
    const Water& record = document.book()->get(water);
    const TypedLevelMark now = typedLevelMark(record);
    setObjectName(QStringLiteral("levelDialog"));
    setWindowTitle(tr("Level mark of the water"));
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* title = plainWords(QString::fromStdString(record.name), "levelWater", inside);
    title->setProperty("heading", true);
    column->addWidget(title);
    words_ = addTypedField(*column, tr("&What you read the level from"), "levelWords");
    words_->setPlaceholderText(tr("steps showing by the sluice"));
    step_ = addTypedField(*column, tr("&Height of one step"), "levelStep");
    step_->setPlaceholderText(tr("6 in or 15 cm; blank for a board in metres or feet"));
    counts_ = new QComboBox(inside);
    counts_->setObjectName(QStringLiteral("levelCounts"));
    counts_->addItem(
        tr("More steps when the water is higher"), static_cast<int>(LevelCounts::UpWithWater));
    counts_->addItem(
        tr("More steps when the water is lower, as with steps showing"),
        static_cast<int>(LevelCounts::DownWithWater));
    auto* way = new QLabel(tr("Which way the steps &count"), inside);
    way->setBuddy(counts_);
    way->setWordWrap(true);
    column->addSpacing(8);
    column->addWidget(way);
    column->addWidget(counts_);
    taken_ = plainWords({}, "levelTaken", inside);
    column->addWidget(taken_);
    column->addSpacing(8);
    column->addWidget(plainWords(
        tr("Every page of this water whose level is in steps is taken anew, and the bed with it. "
           "The pages stay as they are, and undo takes it back."),
        "levelChanges",
        inside));
    column->addStretch();
    fault_ = plainWords({}, "levelFault", this);
    fault_->hide();
    arrangeTyped(
        *this,
        {.inside = inside,
         .last = counts_,
         .fault = fault_,
         .scroll = "levelScroll",
         .keep = "levelKeep"});
    words_->setText(QString::fromStdString(now.words));
    step_->setText(QString::fromStdString(now.stepHeight));
    counts_->setCurrentIndex(counts_->findData(static_cast<int>(now.counts)));
    connect(step_, &QLineEdit::textChanged, this, &LevelDialog::sayTaken);
    connect(counts_, &QComboBox::currentIndexChanged, this, &LevelDialog::sayTaken);
    sayTaken();
    words_->setFocus();
}

TypedLevelMark LevelDialog::typed() const {
    return {
        .words = words_->text().toStdString(),
        .stepHeight = step_->text().toStdString(),
        .counts = static_cast<LevelCounts>(counts_->currentData().toInt())};
}

void LevelDialog::sayTaken() {
    taken_->setText(QString::fromStdString(takenLevelWords(typed(), unit_)));
    step_->setAccessibleDescription(taken_->text());
    counts_->setAccessibleDescription(taken_->text());
    fault_->hide();
}

void LevelDialog::accept() {
    const auto book = document_.book();
    const Water* water = book->find(water_);
    if (water == nullptr) {
        showFault(*fault_, tr("This water is no longer in the book."));
        return;
    }
    if (keepTyped(
            document_,
            tr("level mark of %1").arg(QString::fromStdString(water->name)),
            putLevelMark(*book, water_, typed()),
            *fault_)) {
        QDialog::accept();
    }
}

} // namespace bedlore

#include "moc_level_dialog.cpp"
