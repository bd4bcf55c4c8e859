// SPDX-License-Identifier: MIT
#include "gui/dialogs/tables_dialog.hpp"

#include "gui/dialogs/dialog_parts.hpp"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace bedlore {

TablesDialog::TablesDialog(const PrivateCounts& counts, QWidget* parent)
    : QDialog(parent)
    , words_(QString::fromStdString(privateWords(counts)))
    , holds_(plainWords({}, "tablesHold", this))
    , private_(new QCheckBox(tr("Pri&vate spots, marks and photos too"), this)) {
    setObjectName(QStringLiteral("tablesDialog"));
    setWindowTitle(tr("Save as tables"));
    private_->setObjectName(QStringLiteral("tablesPrivate"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    buttons->addButton(tr("&Go on"), QDialogButtonBox::AcceptRole)
        ->setObjectName(QStringLiteral("tablesGoOn"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(holds_);
    column->addWidget(private_);
    column->addWidget(buttons);
    connect(private_, &QCheckBox::toggled, this, &TablesDialog::showHoldings);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    showHoldings();
    private_->setFocus();
}

PrivateThings TablesDialog::privateThings() const {
    return private_->isChecked() ? PrivateThings::Include : PrivateThings::LeaveOut;
}

void TablesDialog::showHoldings() {
    holds_->setText(
        private_->isChecked()
            ? tr("The tables will hold the whole book, with %1: they are for yourself, not for "
                 "sharing.")
                  .arg(words_)
            : tr("The tables will hold the whole book but what is private. Kept back: %1. Their "
                 "names are taken out of the pages too, so the book that these tables make is not "
                 "equal to this one.")
                  .arg(words_));
    holds_->setAccessibleName(holds_->text());
}

} // namespace bedlore

#include "moc_tables_dialog.cpp"
