// SPDX-License-Identifier: MIT
#include "gui/panels/line_edits.hpp"
#include "gui/panels/page_editor.hpp"
#include "gui/panels/page_margin.hpp"

#include <QKeyEvent>
#include <QMimeData>
#include <QTextBlock>

// What keys, mouse and clipboard do to the page.

namespace bedlore {

bool PageEditor::handleCommandKey(QKeyEvent* event) {
    if (event->matches(QKeySequence::Undo)) {
        Q_EMIT undoWanted();
        return true;
    }
    const bool redoByLetter =
        event->key() == Qt::Key_Y && event->modifiers() == Qt::ControlModifier;
    if (event->matches(QKeySequence::Redo) || redoByLetter) {
        Q_EMIT redoWanted();
        return true;
    }
    if (event->modifiers() == Qt::AltModifier && event->key() >= Qt::Key_1 &&
        event->key() <= Qt::Key_9) {
        Q_EMIT answered(event->key() - Qt::Key_1);
        return true;
    }
    return false;
}

/// A plain new line, whatever is held down: a soft line break would be a line unseen.
void PageEditor::breakLine() {
    const QTextCursor cursor = textCursor();
    const bool opens =
        cursor.atBlockEnd() && !cursor.hasSelection() && cursor.block().next().isValid();
    opened_ = opens ? cursor.blockNumber() + 1 : -1; // before anybody hears of the new line
    textCursor().insertText(QStringLiteral("\n"));
    ensureCursorVisible();
}

void PageEditor::openLineBelow() {
    goToLine(currentLine());
    breakLine();
}

void PageEditor::mousePressEvent(QMouseEvent* event) {
    pressing_ = event->button() == Qt::LeftButton;
    QPlainTextEdit::mousePressEvent(event);
}

void PageEditor::mouseReleaseEvent(QMouseEvent* event) {
    QPlainTextEdit::mouseReleaseEvent(event);
    pressing_ = false;
    leaveOpenedLine();
}

void PageEditor::keyPressEvent(QKeyEvent* event) {
    pressing_ = false; // where a menu or a drag took the release
    if (handleCommandKey(event)) {
        return;
    }
    const bool enters = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (!enters || isReadOnly()) {
        QPlainTextEdit::keyPressEvent(event);
        return;
    }
    if (event->modifiers().testFlag(Qt::ShiftModifier)) {
        breakLine();
        return;
    }
    if (moveOnFromMended()) {
        return;
    }
    // Where the cursor stands in a line matters only before its first letter.
    const QTextCursor cursor = textCursor();
    const bool opensAbove =
        cursor.atBlockStart() && !cursor.hasSelection() && !cursor.block().text().isEmpty();
    if (!opensAbove) {
        goToLine(currentLine());
    }
    if (!moveToWaitingLine()) {
        breakLine();
    }
}

void PageEditor::focusOutEvent(QFocusEvent* event) {
    QPlainTextEdit::focusOutEvent(event);
    margin_->update();
    keepTyped();
}

bool PageEditor::canInsertFromMimeData(const QMimeData* source) const {
    return source->hasText() && !source->hasUrls();
}

void PageEditor::focusInEvent(QFocusEvent* event) {
    QPlainTextEdit::focusInEvent(event);
    margin_->update();
}

void PageEditor::insertFromMimeData(const QMimeData* source) {
    if (!canInsertFromMimeData(source)) {
        return;
    }
    const QString text = asLines(source->text());
    opened_ = -1; // what is pasted stands as it came
    settingLines_ = true;
    placePaste(text);
    settingLines_ = false;
    ensureCursorVisible();
    if (text.contains(u'\n')) {
        line_ = -1; // several lines at once are one act, wherever the cursor ends
    }
    followCursor();
}

void PageEditor::placePaste(const QString& text) {
    QTextCursor cursor = textCursor();
    const bool untouched = !start_.isEmpty() && toPlainText() == start_;
    if (untouched && text.contains(u'\n')) {
        // A whole page names its swim itself; readings alone go under the two headers.
        if (text.trimmed().startsWith(QLatin1String("swim"), Qt::CaseInsensitive)) {
            cursor.select(QTextCursor::Document);
        } else {
            cursor.movePosition(QTextCursor::End);
            cursor.insertText(QStringLiteral("\n"));
        }
    }
    cursor.insertText(text);
    setTextCursor(cursor);
}

} // namespace bedlore
