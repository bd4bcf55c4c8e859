// SPDX-License-Identifier: MIT
#include "gui/dialogs/dialog_parts.hpp"

#include <QLabel>
#include <QLineEdit>
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

} // namespace bedlore
