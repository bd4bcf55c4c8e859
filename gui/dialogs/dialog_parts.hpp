// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

class QLabel;
class QLineEdit;
class QVBoxLayout;
class QWidget;

// Parts of the dialogs in which a few words are typed.

namespace bedlore {

/// Words as they are, broken into lines.
[[nodiscard]] QLabel* plainWords(const QString& words, const char* name, QWidget* parent);

/// A field under its words, whose key leads to it.
QLineEdit* addTypedField(QVBoxLayout& column, const QString& words, const char* name);

/// Shows a sentence about what cannot be kept, to eyes and to a screen reader.
void showFault(QLabel& fault, const QString& sentence);

} // namespace bedlore
