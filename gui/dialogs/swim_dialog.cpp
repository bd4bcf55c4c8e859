// SPDX-License-Identifier: MIT
#include "gui/dialogs/swim_dialog.hpp"

#include "gui/dialogs/dialog_parts.hpp"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace bedlore {

SwimDialog::SwimDialog(Document& document, Id<Swim> swim, QWidget* parent)
    : QDialog(parent)
    , document_(document)
    , swim_(swim) {
    const Swim& record = document.book()->get(swim);
    const TypedSwim now = typedSwim(record);
    setObjectName(QStringLiteral("swimDialog"));
    setWindowTitle(tr("Place of the swim"));
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* title = plainWords(QString::fromStdString(record.name), "swimName", inside);
    title->setProperty("heading", true);
    column->addWidget(title);
    place_ = addTypedField(*column, tr("&Where the rod tip is"), "swimPlace");
    place_->setPlaceholderText(tr("52.12345, -1.54321 or 120 m east, 45 m north"));
    taken_ = plainWords({}, "swimTaken", inside);
    column->addWidget(taken_);
    tip_ = addTypedField(*column, tr("&Height of the rod tip above the water"), "swimTip");
    tip_->setPlaceholderText(tr("6 ft is taken where nothing is said"));
    standing_ =
        addTypedField(*column, tr("Where exactly you &stand, for yourself"), "swimStanding");
    column->addSpacing(8);
    column->addWidget(plainWords(
        tr("With a latitude and longitude, compass bearings can be turned to true north, and this "
           "swim lies on one map with the others that have a place. Depths stay as they are. The "
           "height of the tip tells how far out a length of line reaches; a page that says its "
           "own \"tip\" keeps it. Undo takes all of it back."),
        "swimChanges",
        inside));
    column->addSpacing(8);
    column->addWidget(plainWords(
        tr("The place stays in this book. A map that you export shows where you stand only if you "
           "choose Everything."),
        "swimPrivate",
        inside));
    column->addStretch();
    fault_ = plainWords({}, "swimFault", this);
    fault_->hide();
    arrangeTyped(
        *this,
        {.inside = inside,
         .last = standing_,
         .fault = fault_,
         .scroll = "swimScroll",
         .keep = "swimKeep"});
    place_->setText(QString::fromStdString(now.place));
    tip_->setText(QString::fromStdString(now.tipHeight));
    standing_->setText(QString::fromStdString(now.standing));
    connect(place_, &QLineEdit::textChanged, this, &SwimDialog::sayTaken);
    connect(tip_, &QLineEdit::textChanged, fault_, &QWidget::hide);
    sayTaken();
    place_->setFocus();
}

TypedSwim SwimDialog::typed() const {
    return {
        .place = place_->text().toStdString(),
        .tipHeight = tip_->text().toStdString(),
        .standing = standing_->text().toStdString()};
}

void SwimDialog::sayTaken() {
    const Result<Place> place = readTypedPlace(typed().place);
    taken_->setText(
        QString::fromStdString(place ? takenPlaceWords(*place) : place.error().message));
    place_->setAccessibleDescription(taken_->text());
    fault_->hide();
}

void SwimDialog::accept() {
    const auto book = document_.book();
    const Swim* swim = book->find(swim_);
    if (swim == nullptr) {
        showFault(*fault_, tr("This swim is no longer in the book."));
        return;
    }
    if (keepTyped(
            document_,
            tr("placed %1").arg(QString::fromStdString(swim->name)),
            placeSwim(*book, swim_, typed()),
            *fault_)) {
        QDialog::accept();
    }
}

} // namespace bedlore

#include "moc_swim_dialog.cpp"
