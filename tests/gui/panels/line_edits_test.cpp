// SPDX-License-Identifier: MIT
#include "gui/panels/line_edits.hpp"

#include <QPlainTextEdit>
#include <QTextBlock>
#include <gtest/gtest.h>

#include <string>

namespace bedlore {
namespace {

/// An editor with `text`, the cursor in column `column` of line `line`.
struct Editor {
    QPlainTextEdit edit;

    explicit Editor(const char* text, int line, int column = 0) {
        edit.setPlainText(QString::fromLatin1(text));
        QTextCursor cursor(edit.document()->findBlockByNumber(line));
        cursor.setPosition(cursor.position() + column);
        edit.setTextCursor(cursor);
    }
    void selectTo(int line, int column) {
        QTextCursor cursor = edit.textCursor();
        cursor.setPosition(
            edit.document()->findBlockByNumber(line).position() + column, QTextCursor::KeepAnchor);
        edit.setTextCursor(cursor);
    }
    [[nodiscard]] std::string text() const { return edit.toPlainText().toStdString(); }
    [[nodiscard]] std::pair<int, int> cursor() const {
        return {edit.textCursor().blockNumber(), edit.textCursor().positionInBlock()};
    }
};

TEST(LineEdits, ALineMovesWithItsCursor) {
    Editor up("a\nbcd\ne\n", 1, 2);
    EXPECT_TRUE(moveLines(up.edit, -1));
    EXPECT_EQ(up.text(), "bcd\na\ne\n");
    EXPECT_EQ(up.cursor(), std::pair(0, 2));
    Editor down("a\nbcd\ne\n", 1, 2);
    EXPECT_TRUE(moveLines(down.edit, 1));
    EXPECT_EQ(down.text(), "a\ne\nbcd\n");
    EXPECT_EQ(down.cursor(), std::pair(2, 2));
}

TEST(LineEdits, SelectedLinesMoveTogetherAndStaySelected) {
    Editor editor("a\nb\nc\nd\n", 1);
    editor.selectTo(3, 0); // up to, and not into, the line of d
    EXPECT_TRUE(moveLines(editor.edit, 1));
    EXPECT_EQ(editor.text(), "a\nd\nb\nc\n");
    EXPECT_TRUE(moveLines(editor.edit, -1));
    EXPECT_TRUE(moveLines(editor.edit, -1));
    EXPECT_EQ(editor.text(), "b\nc\na\nd\n");
    EXPECT_TRUE(editor.edit.textCursor().hasSelection());
}

TEST(LineEdits, NothingMovesBeyondTheFirstAndTheLastTypedLine) {
    Editor first("a\nb\n", 0);
    EXPECT_FALSE(moveLines(first.edit, -1));
    Editor last("a\nb\n", 1);
    EXPECT_FALSE(moveLines(last.edit, 1)) << "the empty line behind it waits to be typed";
    Editor waiting("a\nb\n", 2);
    EXPECT_FALSE(moveLines(waiting.edit, -1));
    EXPECT_FALSE(moveLines(waiting.edit, 0));
    Editor unended("a\nb", 1);
    EXPECT_FALSE(moveLines(unended.edit, 1));
    EXPECT_TRUE(moveLines(unended.edit, -1));
    EXPECT_EQ(unended.text(), "b\na");
}

TEST(LineEdits, ACopyStandsBelowWithTheCursor) {
    Editor editor("a\nbcd\ne\n", 1, 3);
    EXPECT_TRUE(duplicateLines(editor.edit));
    EXPECT_EQ(editor.text(), "a\nbcd\nbcd\ne\n");
    EXPECT_EQ(editor.cursor(), std::pair(2, 3));
}

TEST(LineEdits, LinesAreTakenOutWhole) {
    Editor one("a\nbcd\ne\n", 1, 2);
    EXPECT_TRUE(removeLines(one.edit));
    EXPECT_EQ(one.text(), "a\ne\n");
    EXPECT_EQ(one.cursor(), std::pair(1, 0));
    Editor two("a\nb\nc\n", 0);
    two.selectTo(1, 1);
    EXPECT_TRUE(removeLines(two.edit));
    EXPECT_EQ(two.text(), "c\n");
    Editor last("a\nb", 1);
    EXPECT_TRUE(removeLines(last.edit));
    EXPECT_EQ(last.text(), "a\n");
}

TEST(LineEdits, AnEmptyPageHasNoLines) {
    Editor editor("", 0);
    EXPECT_FALSE(moveLines(editor.edit, 1));
    EXPECT_FALSE(duplicateLines(editor.edit));
    EXPECT_FALSE(removeLines(editor.edit));
    EXPECT_EQ(editor.text(), "");
}

} // namespace
} // namespace bedlore
