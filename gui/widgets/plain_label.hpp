// SPDX-License-Identifier: MIT
#pragma once

#include <QLabel>
#include <QString>

namespace bedlore {

/// Shows words as they are, over several rows where there is no room for them in one.
[[nodiscard]] inline QLabel* plainLabel(const char* objectName, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(objectName));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

} // namespace bedlore
