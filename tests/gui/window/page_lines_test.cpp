// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QApplication>
#include <QClipboard>

#include <map>

// Whole lines of the page by one key each: what the book holds follows, and what he did not touch
// stays the record that it was.

namespace bedlore::testing {
namespace {

/// The headers, and two casts of three readings each from line 11 on (counted from 0).
std::vector<std::string> twoCasts() {
    std::vector<std::string> lines = headers;
    for (const char* line :
         {"A 32 6' gr", "30 7½ si", "28 9 sa", "B 31 8 cl", "29 9½ gr", "26 11 si"}) {
        lines.emplace_back(line);
    }
    return lines;
}

constexpr int firstReading = 11;

struct Casts {
    std::map<std::string, Id<Reading>> readings; ///< by the text of their lines
    std::map<std::string, Id<Cast>> casts;
    std::map<std::string, int> orders;
};

Casts castsOf(const Book& book) {
    Casts casts;
    for (const PageLine& line : book.all<PageLine>()) {
        if (line.reading) {
            const Reading& reading = book.get(*line.reading);
            casts.readings[line.text] = reading.id;
            casts.casts[line.text] = reading.cast;
            casts.orders[line.text] = reading.order;
        }
    }
    return casts;
}

void key(OpenWindow& open, const char* action) {
    open.window.action(QString::fromLatin1(action))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
}

struct TypedPage : OpenWindow {
    Casts before;
    TypedPage() {
        typePage(twoCasts());
        editor().setFocus();
        before = castsOf(*records());
    }
    [[nodiscard]] QString undoWords() { return desk().document().undoWords(); }
};

TEST(PageLines, ALineMovedIntoAnotherCastGoesOverToItAndStaysItself) {
    TypedPage open;
    open.editor().goToLine(firstReading + 2); // 28, the last of cast A
    key(open, "lineDown");
    const Casts after = castsOf(*open.records());
    // It now stands behind "B 31 8 cl", so it is the second reading of that cast.
    EXPECT_EQ(after.casts.at("28 9 sa"), after.casts.at("B 31 8 cl"));
    EXPECT_EQ(after.orders.at("28 9 sa"), 2);
    EXPECT_EQ(after.readings, open.before.readings) << "every reading stayed the record it was";
    EXPECT_EQ(after.casts.at("A 32 6' gr"), open.before.casts.at("A 32 6' gr"));
    // 29 is not nearer than 28, so by the rules of the page it begins a new cast on aim B.
    EXPECT_NE(after.casts.at("29 9½ gr"), after.casts.at("B 31 8 cl"));
    // Most lines of the cast that was there before are in it.
    EXPECT_EQ(after.casts.at("29 9½ gr"), open.before.casts.at("29 9½ gr"));
    EXPECT_EQ(open.undoWords(), QStringLiteral("swapped lines 14 and 15"));
    const Book moved = *open.records();
    key(open, "undo");
    EXPECT_EQ(castsOf(*open.records()).casts, open.before.casts);
    key(open, "redo");
    EXPECT_EQ(*open.records(), moved);
}

TEST(PageLines, MovingByTheKeyboardKeepsTheCursorOnTheLine) {
    TypedPage open;
    open.editor().goToLine(firstReading + 1);
    QTest::keyClick(&open.window, Qt::Key_Up, Qt::AltModifier);
    EXPECT_EQ(open.editor().currentLine(), firstReading);
    EXPECT_EQ(open.editor().lines().at(firstReading), QStringLiteral("30 7½ si"));
    QTest::keyClick(&open.window, Qt::Key_Down, Qt::AltModifier);
    EXPECT_EQ(open.editor().currentLine(), firstReading + 1);
    EXPECT_EQ(castsOf(*open.records()).readings, open.before.readings);
    EXPECT_EQ(castsOf(*open.records()).casts, open.before.casts);
}

TEST(PageLines, ACopyIsAReadingOfItsOwn) {
    TypedPage open;
    open.editor().goToLine(firstReading + 1);
    key(open, "lineTwice");
    EXPECT_EQ(open.records()->all<Reading>().size(), 7U);
    EXPECT_EQ(open.editor().currentLine(), firstReading + 2);
    const Casts after = castsOf(*open.records());
    for (const char* line : {"A 32 6' gr", "28 9 sa", "B 31 8 cl", "29 9½ gr", "26 11 si"}) {
        EXPECT_EQ(after.readings.at(line), open.before.readings.at(line)) << line;
    }
    key(open, "undo");
    EXPECT_EQ(castsOf(*open.records()).readings, open.before.readings);
}

TEST(PageLines, ALineTakenOutTakesOnlyItsReading) {
    TypedPage open;
    open.editor().goToLine(firstReading + 3); // the first of cast B
    key(open, "lineOut");
    const Casts after = castsOf(*open.records());
    EXPECT_EQ(after.readings.size(), 5U);
    EXPECT_FALSE(after.readings.contains("B 31 8 cl"));
    EXPECT_EQ(open.undoWords(), QStringLiteral("took out line 15"));
    key(open, "undo");
    EXPECT_EQ(castsOf(*open.records()).readings, open.before.readings);
}

TEST(PageLines, SelectedLinesMoveAsOneAct) {
    TypedPage open;
    open.editor().goToLine(firstReading + 1);
    QTest::keyClick(&open.editor(), Qt::Key_Home);
    QTest::keyClick(&open.editor(), Qt::Key_Down, Qt::ShiftModifier);
    QTest::keyClick(&open.editor(), Qt::Key_Down, Qt::ShiftModifier);
    key(open, "lineUp");
    const QStringList lines = open.editor().lines();
    EXPECT_EQ(
        lines.mid(firstReading, 3),
        (QStringList{
            QStringLiteral("30 7½ si"), QStringLiteral("28 9 sa"), QStringLiteral("A 32 6' gr")}));
    EXPECT_EQ(castsOf(*open.records()).readings, open.before.readings);
    key(open, "undo");
    EXPECT_EQ(castsOf(*open.records()).casts, open.before.casts);
}

TEST(PageLines, ALineIsPutInAnywhere) {
    TypedPage open;
    open.editor().goToLine(firstReading + 1);
    QTest::keyClick(&open.editor(), Qt::Key_Left); // in the middle of the line: it stays whole
    key(open, "lineBelow");
    open.press("29 8 wd");
    open.editor().goToLine(firstReading);
    key(open, "lineAbove");
    open.press("wind SW3");
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_EQ(
        open.editor().lines().mid(firstReading, 5),
        (QStringList{
            QStringLiteral("wind SW3"),
            QStringLiteral("A 32 6' gr"),
            QStringLiteral("30 7½ si"),
            QStringLiteral("29 8 wd"),
            QStringLiteral("28 9 sa")}));
    const Casts after = castsOf(*open.records());
    EXPECT_EQ(after.casts.at("29 8 wd"), open.before.casts.at("A 32 6' gr"));
    for (const auto& [line, id] : open.before.readings) {
        EXPECT_EQ(after.readings.at(line), id) << line;
    }
}

TEST(PageLines, ALineThatWasOnlyOpenedPartsNoCastAndIsNoAct) {
    TypedPage open;
    const std::shared_ptr<const Book> before = open.records();
    open.editor().goToLine(firstReading + 1);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    EXPECT_EQ(open.editor().lines().at(firstReading + 2), QString());
    EXPECT_FALSE(open.desk().page().hasUnkept());
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_EQ(open.editor().lines().at(firstReading + 2), QStringLiteral("28 9 sa"));
    key(open, "lineBelow");
    open.desk().page().goToLine(linesOf(*before, *open.desk().page().page()).back()->id);
    EXPECT_EQ(open.editor().lines().at(open.editor().currentLine()), QStringLiteral("26 11 si"));
    EXPECT_EQ(open.records(), before) << "nothing came into the book, nor went";
    // Undo takes the line away that was opened, and nothing before it.
    open.editor().goToLine(firstReading + 1);
    open.editor().setFocus();
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    key(open, "undo");
    EXPECT_EQ(open.editor().lines().at(firstReading + 2), QStringLiteral("28 9 sa"));
    EXPECT_EQ(open.records(), before);
}

TEST(PageLines, ReturnTwicePartsACastInMidPage) {
    TypedPage open;
    open.editor().goToLine(firstReading + 1);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_EQ(open.editor().lines().at(firstReading + 2), QString());
    EXPECT_EQ(open.editor().lines().at(firstReading + 3), QStringLiteral("28 9 sa"));
    const Casts after = castsOf(*open.records());
    EXPECT_EQ(after.casts.at("30 7½ si"), open.before.casts.at("A 32 6' gr"));
    EXPECT_NE(after.casts.at("28 9 sa"), open.before.casts.at("A 32 6' gr"));
    key(open, "undo");
    EXPECT_EQ(castsOf(*open.records()).casts, open.before.casts);
}

TEST(PageLines, AnAnswerBesideAnOpenedLineGoesToItsQuestion) {
    TypedPage open;
    open.editor().goToLine(firstReading);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    open.press("31 7 gravle");
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    ASSERT_EQ(open.editor().openedLine(), firstReading + 2);
    ASSERT_FALSE(open.editor().noteOf(firstReading + 1).question.isEmpty());
    open.desk().page().answer(0);
    EXPECT_EQ(open.editor().lines().at(firstReading + 1), QStringLiteral("31 7 gravel"));
    EXPECT_EQ(open.editor().openedLine(), firstReading + 2) << "he goes on where he was";
    EXPECT_EQ(open.editor().currentLine(), firstReading + 2);
    const Casts after = castsOf(*open.records());
    EXPECT_EQ(after.casts.at("31 7 gravel"), open.before.casts.at("A 32 6' gr"));
    EXPECT_EQ(after.casts.at("30 7½ si"), open.before.casts.at("A 32 6' gr"));
}

TEST(PageLines, AnEveningIsPastedAsOneActWithItsMeaningsAndQuestions) {
    OpenWindow open;
    std::vector<std::string> lines = eveningPage();
    lines[20] = "110 12"; // beyond any cast: asked about
    QApplication::clipboard()->setText(QString::fromStdString(whole(lines)));
    open.editor().setFocus();
    QTest::keyClick(&open.editor(), Qt::Key_V, Qt::ControlModifier);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(storedText(*open.records()), whole(lines)) << "in place of the waiting headers";
    EXPECT_EQ(open.records()->all<Reading>().size(), 50U);
    const auto& notes = open.editor().notes();
    ASSERT_GE(notes.size(), lines.size());
    EXPECT_FALSE(notes[20].question.isEmpty());
    EXPECT_FALSE(notes[20].answers.isEmpty());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        EXPECT_TRUE(i == 20 || (notes[i].question.isEmpty() && !notes[i].words.isEmpty())) << i;
    }
    ASSERT_NE(open.desk().builder().map(), nullptr);
    key(open, "undo");
    EXPECT_TRUE(open.records()->all<PageLine>().empty()) << "one act";
    key(open, "redo");
    EXPECT_EQ(open.records()->all<Reading>().size(), 50U);
}

TEST(PageLines, ReadingsPastedOnANewPageGoUnderItsHeaders) {
    OpenWindow open;
    QApplication::clipboard()->setText(QStringLiteral("A 28w 9ft\u202827w 8ft\r\n26w 7ft"));
    QTest::keyClick(&open.editor(), Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(
        open.editor().lines(),
        (QStringList{
            QStringLiteral("swim "),
            QStringLiteral("date "),
            QStringLiteral("A 28w 9ft"),
            QStringLiteral("27w 8ft"),
            QStringLiteral("26w 7ft")}));
}

TEST(PageLines, KeysOfThePageDoNothingOutOfSight) {
    TypedPage open;
    open.editor().goToLine(firstReading);
    open.window.goToPlan();
    const Book before = *open.records();
    for (const char* action : {"lineUp", "lineDown", "lineTwice", "lineOut", "lineBelow"}) {
        key(open, action);
    }
    EXPECT_EQ(*open.records(), before);
}

} // namespace
} // namespace bedlore::testing
