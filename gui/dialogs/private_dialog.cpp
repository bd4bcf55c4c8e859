// SPDX-License-Identifier: MIT
#include "gui/dialogs/private_dialog.hpp"

#include "gui/dialogs/dialog_parts.hpp"

#include <QLabel>
#include <QListWidget>
#include <QVBoxLayout>

#include <variant>

namespace bedlore {

PrivateDialog::PrivateDialog(Document& document, Id<Water> water, QWidget* parent)
    : QDialog(parent)
    , document_(document)
    , before_(privateChoices(*document.book(), water)) {
    setObjectName(QStringLiteral("privateDialog"));
    setWindowTitle(tr("Private spots and marks"));
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* title = plainWords(
        QString::fromStdString(document.book()->get(water).name), "privateWater", inside);
    title->setProperty("heading", true);
    column->addWidget(title);
    column->addWidget(plainWords(
        tr("What is ticked here leaves with no map and no file but where you tick for that one "
           "that private things leave too, the book's own tables included. A copy of the book "
           "holds everything."),
        "privateMeaning",
        inside));
    column->addSpacing(8);
    list_ = new QListWidget(inside);
    list_->setObjectName(QStringLiteral("privateList"));
    list_->setAccessibleName(tr("Private spots and marks"));
    auto* label = new QLabel(tr("&Private (the space bar ticks)"), inside);
    label->setBuddy(list_);
    label->setWordWrap(true);
    for (const PrivateChoice& choice : before_) {
        const bool isSpot = std::holds_alternative<Id<Spot>>(choice.what);
        const QString name = QString::fromStdString(choice.name);
        auto* row =
            new QListWidgetItem(isSpot ? tr("%1, a spot").arg(name) : tr("%1, a mark").arg(name));
        row->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
        row->setCheckState(choice.isPrivate ? Qt::Checked : Qt::Unchecked);
        list_->addItem(row);
    }
    list_->setCurrentRow(0);
    column->addWidget(label);
    column->addWidget(list_, 1);
    fault_ = plainWords({}, "privateFault", this);
    fault_->hide();
    arrangeTyped(
        *this,
        {.inside = inside,
         .last = list_,
         .fault = fault_,
         .scroll = "privateScroll",
         .keep = "privateKeep"});
    list_->setFocus();
}

std::vector<PrivateChoice> PrivateDialog::chosen() const {
    std::vector<PrivateChoice> choices = before_;
    for (std::size_t i = 0; i < choices.size(); ++i) {
        choices[i].isPrivate = list_->item(static_cast<int>(i))->checkState() == Qt::Checked;
    }
    return choices;
}

void PrivateDialog::accept() {
    if (keepTyped(
            document_, tr("what is private"), putPrivate(*document_.book(), chosen()), *fault_)) {
        QDialog::accept();
    }
}

} // namespace bedlore

#include "moc_private_dialog.cpp"
