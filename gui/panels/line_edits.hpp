// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

class QPlainTextEdit;

// Whole lines of an editor, changed by one key.

namespace bedlore {

/// Each works on the lines that the selection touches, or the one that the cursor is on, is one
/// change of the text, and leaves cursor and selection with the lines. The empty line at the end,
/// which waits to be typed, is no line. False where there is nothing to do.
bool moveLines(QPlainTextEdit& editor, int down);
/// The copy stands below, with the cursor.
bool duplicateLines(QPlainTextEdit& editor);
bool removeLines(QPlainTextEdit& editor);

/// What was copied elsewhere as lines of a page: every kind of line end is one, and nothing is in
/// it that no editor can show.
[[nodiscard]] QString asLines(QString text);

} // namespace bedlore
