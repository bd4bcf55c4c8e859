// SPDX-License-Identifier: MIT
#include "gui/panels/line_commands.hpp"

#include "gui/panels/line_edits.hpp"
#include "gui/panels/page_editor.hpp"

#include <QTextBlock>
#include <QTextCursor>

namespace bedlore::line_command {

void moveUp(PageEditor& page) {
    page.changeLines([](QPlainTextEdit& editor) { return moveLines(editor, -1); });
}

void moveDown(PageEditor& page) {
    page.changeLines([](QPlainTextEdit& editor) { return moveLines(editor, 1); });
}

void duplicate(PageEditor& page) {
    page.changeLines([](QPlainTextEdit& editor) { return duplicateLines(editor); });
}

void takeOut(PageEditor& page) {
    page.changeLines([](QPlainTextEdit& editor) { return removeLines(editor); });
}

void newBelow(PageEditor& page) {
    if (!page.isReadOnly()) {
        page.openLineBelow();
    }
}

void newAbove(PageEditor& page) {
    if (page.isReadOnly()) {
        return;
    }
    page.keepTyped();
    QTextCursor cursor(page.textCursor().block());
    cursor.insertText(QStringLiteral("\n"));
    page.goToLine(cursor.blockNumber() - 1);
}

} // namespace bedlore::line_command
