// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/document.hpp"

#include <QString>

class QDialog;
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

/// What a dialog is made of, and what its parts are called.
struct TypedParts {
    QWidget* inside; ///< all that is typed, scrolled where there is no room
    QWidget* last;   ///< of it, before the buttons
    QLabel* fault;
    const char* scroll;
    const char* keep;
};
/// Lays them out with the buttons Keep and Cancel, which accept and reject `dialog`.
void arrangeTyped(QDialog& dialog, const TypedParts& parts);

/// Makes `edits` one act, none where there are none; false, with a sentence in `fault`, where they
/// could not be made.
[[nodiscard]] bool
keepTyped(Document& document, const QString& act, const Result<Edits>& edits, QLabel& fault);

} // namespace bedlore
