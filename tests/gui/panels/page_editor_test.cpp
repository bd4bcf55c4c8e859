// SPDX-License-Identifier: MIT
#include "gui/panels/page_editor.hpp"

#include <QApplication>
#include <QClipboard>
#include <QSignalSpy>
#include <QTest>
#include <QTextBlock>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

struct ShownEditor {
    PageEditor editor;
    QSignalSpy keeps{&editor, &PageEditor::keepWanted};

    ShownEditor() {
        editor.resize(400, 300);
        editor.show();
        editor.activateWindow();
        editor.setFocus();
    }
};

TEST(PageEditor, ReturnAsksForThePageToBeKept) {
    ShownEditor shown;
    QTest::keyClicks(&shown.editor, QStringLiteral("A 28 9"));
    EXPECT_EQ(shown.keeps.count(), 0);
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    EXPECT_EQ(shown.keeps.count(), 1);
    EXPECT_EQ(shown.editor.lines(), QStringList{QStringLiteral("A 28 9")});
}

TEST(PageEditor, LeavingALineAsksForThePageToBeKept) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("A 28 9"), QStringLiteral("27 8")});
    shown.editor.goToLine(0);
    shown.keeps.clear();
    QTest::keyClick(&shown.editor, Qt::Key_X);
    EXPECT_EQ(shown.keeps.count(), 0);
    QTest::keyClick(&shown.editor, Qt::Key_Down);
    EXPECT_EQ(shown.keeps.count(), 1);
}

TEST(PageEditor, AStartWaitsLineByLine) {
    ShownEditor shown;
    shown.editor.setStart({QStringLiteral("swim "), QStringLiteral("date ")});
    QTest::keyClicks(&shown.editor, QStringLiteral("P14"));
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    QTest::keyClicks(&shown.editor, QStringLiteral("2025-04-12"));
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    QTest::keyClicks(&shown.editor, QStringLiteral("sticks 12 ft"));
    EXPECT_EQ(
        shown.editor.lines(),
        (QStringList{
            QStringLiteral("swim P14"),
            QStringLiteral("date 2025-04-12"),
            QStringLiteral("sticks 12 ft")}));
}

TEST(PageEditor, ABlankLineIsALine) {
    ShownEditor shown;
    QTest::keyClicks(&shown.editor, QStringLiteral("A 28 9"));
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    EXPECT_EQ(shown.editor.lines(), (QStringList{QStringLiteral("A 28 9"), QString()}));
}

TEST(PageEditor, ReturnKeepsTheWholeLineWhereverTheCursorStandsInIt) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("27-25 si glide"), QStringLiteral("24 8")});
    shown.editor.goToLine(0);
    for (int i = 0; i < 9; ++i) {
        QTest::keyClick(&shown.editor, Qt::Key_Left);
    }
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    QTest::keyClicks(&shown.editor, QStringLiteral("x"));
    EXPECT_EQ(
        shown.editor.lines(),
        (QStringList{
            QStringLiteral("27-25 si glide"), QStringLiteral("x"), QStringLiteral("24 8")}));
}

TEST(PageEditor, ReturnGoesOnFromALineThatWasOnlyMended) {
    PageEditor editor;
    editor.setLines({"A 28 9", "27 9", "26 8"});
    editor.goToLine(0);
    QTest::keyClicks(&editor, QStringLiteral(" gr"));
    QTest::keyClick(&editor, Qt::Key_Return);
    EXPECT_EQ(editor.lines(), QStringList({"A 28 9 gr", "27 9", "26 8"})) << "no empty line";
    EXPECT_EQ(editor.currentLine(), 1);
    // Nothing was mended here: a line is wanted between two, and another below it.
    QTest::keyClick(&editor, Qt::Key_Return);
    QTest::keyClicks(&editor, QStringLiteral("26.5 8"));
    QTest::keyClick(&editor, Qt::Key_Return);
    EXPECT_EQ(editor.lines(), QStringList({"A 28 9 gr", "27 9", "26.5 8", "", "26 8"}));
    EXPECT_EQ(editor.currentLine(), 3);
}

TEST(PageEditor, ReturnBeforeALineOpensOneAboveIt) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("A 28 9"), QStringLiteral("27 8")});
    shown.editor.goToLine(1);
    QTest::keyClick(&shown.editor, Qt::Key_Home);
    QTest::keyClick(&shown.editor, Qt::Key_Return);
    EXPECT_EQ(
        shown.editor.lines(),
        (QStringList{QStringLiteral("A 28 9"), QString(), QStringLiteral("27 8")}));
}

/// Three readings, and an empty line opened below the first.
struct OpenedLine : ShownEditor {
    OpenedLine() {
        editor.setLines({"A 28 9", "27 8", "26 8"});
        editor.goToLine(0);
        QTest::keyClick(&editor, Qt::Key_Return);
        EXPECT_EQ(editor.lines(), QStringList({"A 28 9", "", "27 8", "26 8"}));
        EXPECT_EQ(editor.openedLine(), 1);
    }
};

TEST(PageEditor, ALineThatWasOnlyOpenedGoesWhenItIsLeft) {
    for (const Qt::Key key : {Qt::Key_Down, Qt::Key_Up, Qt::Key_Right, Qt::Key_Left}) {
        OpenedLine opened;
        QTest::keyClick(&opened.editor, key);
        EXPECT_EQ(opened.editor.lines(), QStringList({"A 28 9", "27 8", "26 8"})) << key;
        EXPECT_EQ(opened.editor.openedLine(), std::nullopt);
        const bool down = key == Qt::Key_Down || key == Qt::Key_Right;
        EXPECT_EQ(opened.editor.currentLine(), down ? 1 : 0);
    }
    OpenedLine spaces;
    QTest::keyClicks(&spaces.editor, QStringLiteral("  "));
    QTest::keyClick(&spaces.editor, Qt::Key_Down);
    EXPECT_EQ(spaces.editor.lines(), QStringList({"A 28 9", "27 8", "26 8"}));
}

TEST(PageEditor, ALineUnderTheMouseStaysThereUntilTheButtonIsUp) {
    OpenedLine opened;
    const auto row = [&](int line) {
        QTextCursor cursor(opened.editor.document()->findBlockByNumber(line));
        return opened.editor.cursorRect(cursor).center();
    };
    const QPoint last = row(3);
    QWidget* paper = opened.editor.viewport();
    QTest::mousePress(paper, Qt::LeftButton, {}, last);
    EXPECT_EQ(opened.editor.lines().size(), 4);
    QTest::mouseRelease(paper, Qt::LeftButton, {}, last);
    EXPECT_EQ(opened.editor.lines(), QStringList({"A 28 9", "27 8", "26 8"}));
    EXPECT_EQ(opened.editor.currentLine(), 2) << "the line that he pointed at";
}

TEST(PageEditor, ALineThatWasTypedOnOrWantedBlankStays) {
    OpenedLine typed;
    QTest::keyClicks(&typed.editor, QStringLiteral("27.5 8"));
    EXPECT_EQ(typed.editor.openedLine(), std::nullopt);
    QTest::keyClick(&typed.editor, Qt::Key_Down);
    EXPECT_EQ(typed.editor.lines(), QStringList({"A 28 9", "27.5 8", "27 8", "26 8"}));
    OpenedLine twice;
    QTest::keyClick(&twice.editor, Qt::Key_Return);
    EXPECT_EQ(twice.editor.openedLine(), 2) << "the next one is opened, the first is meant";
    QTest::keyClick(&twice.editor, Qt::Key_Down);
    EXPECT_EQ(twice.editor.lines(), QStringList({"A 28 9", "", "27 8", "26 8"}));
    OpenedLine left;
    QTest::keyClick(&left.editor, Qt::Key_Return);
    QTest::keyClick(&left.editor, Qt::Key_Up);
    QTest::keyClick(&left.editor, Qt::Key_Up);
    EXPECT_EQ(left.editor.lines(), QStringList({"A 28 9", "", "27 8", "26 8"}));
}

TEST(PageEditor, ShiftReturnSplitsALine) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("A 28 927 8")});
    shown.editor.goToLine(0);
    for (int i = 0; i < 4; ++i) {
        QTest::keyClick(&shown.editor, Qt::Key_Left);
    }
    QTest::keyClick(&shown.editor, Qt::Key_Return, Qt::ShiftModifier);
    EXPECT_EQ(
        shown.editor.lines(), (QStringList{QStringLiteral("A 28 9"), QStringLiteral("27 8")}));
}

TEST(PageEditor, UndoIsTheBooksAndNotItsOwn) {
    ShownEditor shown;
    QSignalSpy undos(&shown.editor, &PageEditor::undoWanted);
    QSignalSpy redos(&shown.editor, &PageEditor::redoWanted);
    QTest::keyClicks(&shown.editor, QStringLiteral("A 28 9"));
    QTest::keyClick(&shown.editor, Qt::Key_Z, Qt::ControlModifier);
    QTest::keyClick(&shown.editor, Qt::Key_Y, Qt::ControlModifier);
    EXPECT_EQ(undos.count(), 1);
    EXPECT_EQ(redos.count(), 1);
    EXPECT_EQ(shown.editor.lines(), QStringList{QStringLiteral("A 28 9")});
}

TEST(PageEditor, OtherLinesLeaveTheCursorAtWhatDiffers) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")});
    shown.editor.goToLine(0);
    shown.keeps.clear(); // leaving a line asks to keep it; being given lines must not
    shown.editor.setLines({QStringLiteral("a"), QStringLiteral("bb"), QStringLiteral("c")});
    EXPECT_EQ(shown.editor.currentLine(), 1);
    EXPECT_EQ(shown.keeps.count(), 0);
    // Taken back from the end: on to the empty line after what is left.
    shown.editor.setLines({QStringLiteral("a"), QStringLiteral("bb")});
    EXPECT_EQ(shown.editor.currentLine(), 2);
}

TEST(PageEditor, TheSameLinesLeaveTheCursorAlone) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("abc"), QStringLiteral("def")});
    shown.editor.goToLine(0);
    QTest::keyClick(&shown.editor, Qt::Key_Left);
    shown.editor.setLines({QStringLiteral("abc"), QStringLiteral("def")});
    EXPECT_EQ(shown.editor.textCursor().positionInBlock(), 2);
}

TEST(PageEditor, APasteIsOneAct) {
    ShownEditor shown;
    QApplication::clipboard()->setText(QStringLiteral("A 28 9\r\n27 8\r\n26 7\r\n"));
    QTest::keyClick(&shown.editor, Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(shown.keeps.count(), 1);
    EXPECT_EQ(
        shown.editor.lines(),
        (QStringList{QStringLiteral("A 28 9"), QStringLiteral("27 8"), QStringLiteral("26 7")}));
}

TEST(PageEditor, MarkupIsText) {
    ShownEditor shown;
    QTest::keyClicks(&shown.editor, QStringLiteral("<b>9</b> &amp; 7"));
    EXPECT_EQ(shown.editor.lines(), QStringList{QStringLiteral("<b>9</b> &amp; 7")});
}

TEST(PageEditor, AnAnswerGoesToTheNearestQuestionAbove) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("a"), QStringLiteral("b"), QStringLiteral("c")});
    LineNote asks;
    asks.question = QStringLiteral("yards?");
    shown.editor.setNotes({LineNote{}, asks, LineNote{}});
    shown.editor.goToLine(3);
    EXPECT_EQ(shown.editor.questionLine(), 1);
    shown.editor.goToLine(0);
    EXPECT_EQ(shown.editor.questionLine(), -1);
    shown.editor.goToNextQuestion();
    EXPECT_EQ(shown.editor.currentLine(), 1);
    QSignalSpy answers(&shown.editor, &PageEditor::answered);
    QTest::keyClick(&shown.editor, Qt::Key_2, Qt::AltModifier);
    ASSERT_EQ(answers.count(), 1);
    EXPECT_EQ(answers.at(0).at(0).toInt(), 1);
}

TEST(PageEditor, AQuestionIsMarkedInTheMargin) {
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("A 110 12")});
    QWidget* margin = shown.editor.findChild<QWidget*>(QStringLiteral("pageMargin"));
    ASSERT_NE(margin, nullptr);
    const QImage plain = margin->grab().toImage();
    LineNote asks;
    asks.question = QStringLiteral("110 wraps is beyond any cast");
    shown.editor.setNotes({asks});
    EXPECT_NE(margin->grab().toImage(), plain);
}

TEST(PageEditor, TwoLettersDrawDifferently) {
    // Without a font on the machine every letter would be the same box.
    ShownEditor shown;
    shown.editor.setLines({QStringLiteral("m")});
    const QImage one = shown.editor.viewport()->grab().toImage();
    shown.editor.setLines({QStringLiteral("½")});
    EXPECT_NE(shown.editor.viewport()->grab().toImage(), one);
}

} // namespace
} // namespace bedlore
