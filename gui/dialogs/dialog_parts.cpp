// SPDX-License-Identifier: MIT
#include "gui/dialogs/dialog_parts.hpp"

#include "gui/widgets/scrolled_part.hpp"

#include <QCoreApplication>
#include <QDialog>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace bedlore {

QLabel* plainWords(const QString& words, const char* name, QWidget* parent) {
    auto* label = new QLabel(words, parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setMinimumWidth(380);
    return label;
}

QLineEdit* addTypedField(QVBoxLayout& column, const QString& words, const char* name) {
    auto* edit = new QLineEdit(column.parentWidget());
    edit->setObjectName(QString::fromLatin1(name));
    auto* label = new QLabel(words, column.parentWidget());
    label->setWordWrap(true);
    label->setBuddy(edit);
    column.addSpacing(8);
    column.addWidget(label);
    column.addWidget(edit);
    return edit;
}

void showFault(QLabel& fault, const QString& sentence) {
    fault.setText(sentence);
    fault.setAccessibleName(sentence);
    fault.show();
}

void arrangeTyped(QDialog& dialog, const TypedParts& parts) {
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, &dialog);
    auto* keep = buttons->addButton(
        QCoreApplication::translate("bedlore::TypedParts", "&Keep"), QDialogButtonBox::AcceptRole);
    keep->setObjectName(QString::fromLatin1(parts.keep));
    auto* whole = new QVBoxLayout(&dialog);
    whole->setContentsMargins(16, 16, 16, 16);
    whole->setSpacing(8);
    whole->addWidget(new ScrolledPart(parts.inside, parts.scroll, {}, &dialog), 1);
    whole->addWidget(parts.fault);
    whole->addWidget(buttons);
    // The box puts its buttons in an order of their own, which leaves one out.
    QWidget::setTabOrder(parts.last, keep);
    QWidget::setTabOrder(keep, buttons->button(QDialogButtonBox::Cancel));
    QObject::connect(buttons, &QDialogButtonBox::accepted, &dialog, &QDialog::accept);
    QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
}

bool keepTyped(Document& document, const QString& act, const Result<Edits>& edits, QLabel& fault) {
    if (!edits) {
        showFault(fault, QString::fromStdString(edits.error().message));
        return false;
    }
    if (edits->empty()) {
        return true;
    }
    const auto done = document.apply(act.toStdString(), *edits);
    if (!done) {
        showFault(fault, QString::fromStdString(done.error().message));
    }
    return done.has_value();
}

} // namespace bedlore
