// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QSignalSpy>
#include <QTimer>

// What is typed is kept in a pause too, not only at Return.

namespace bedlore::testing {
namespace {

QString kept(OpenWindow& open) {
    return open.part<QLabel>("kept").text();
}

std::string onTheDisk(const OpenWindow& open) {
    const auto other = BookFile::open(open.book, BookAccess::ReadOnly);
    EXPECT_TRUE(other.has_value()) << other.error().message;
    return other ? storedText(other->book()) : std::string();
}

TEST(Pauses, PutTheHalfTypedLineOnTheDisk) {
    OpenWindow open;
    open.typePage(headers);
    open.press("A 28½ 9");
    EXPECT_EQ(kept(open), QStringLiteral("not kept yet"));
    open.desk().page().keepInPause();
    EXPECT_EQ(kept(open), QStringLiteral("kept ✓"));
    EXPECT_EQ(onTheDisk(open), whole(headers) + "A 28½ 9\n");
    open.press(" gr");
    EXPECT_EQ(kept(open), QStringLiteral("not kept yet"));
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    EXPECT_EQ(onTheDisk(open), whole(headers) + "A 28½ 9 gr\n");
    open.window.undo();
    EXPECT_EQ(storedText(*open.records()), whole(headers)) << "one step for the line";
}

TEST(Pauses, ComeByThemselvesAfterTheLastKey) {
    OpenWindow open;
    open.typePage(headers);
    auto& pause = open.part<QTimer>("pause");
    EXPECT_FALSE(pause.isActive()) << "all is kept";
    pause.setInterval(0);
    QSignalSpy ends(&pause, &QTimer::timeout);
    open.press("A 28½ 9");
    EXPECT_TRUE(pause.isActive());
    EXPECT_TRUE(ends.wait(60'000));
    EXPECT_EQ(onTheDisk(open), whole(headers) + "A 28½ 9\n");
}

TEST(Pauses, AskNothingAboutALineThatIsStillTyped) {
    OpenWindow open;
    open.typePage(headers);
    const int line = open.editor().currentLine();
    open.press("B 110 12"); // 110 wraps are beyond any cast
    open.desk().page().keepInPause();
    EXPECT_TRUE(open.editor().noteOf(line).question.isEmpty());
    EXPECT_TRUE(open.part<QWidget>("questionStrip").isHidden());
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    EXPECT_FALSE(open.editor().noteOf(line).question.isEmpty());
    EXPECT_FALSE(open.part<QWidget>("questionStrip").isHidden());
}

TEST(Pauses, LetAnAnswerShowItsQuestionFirst) {
    OpenWindow open;
    open.typePage(headers);
    const int line = open.editor().currentLine();
    open.press("B 110 12");
    QTest::keyClick(&open.editor(), Qt::Key_1, Qt::AltModifier);
    EXPECT_FALSE(open.editor().noteOf(line).question.isEmpty());
    EXPECT_TRUE(open.records()->all<Reading>().empty());
    QTest::keyClick(&open.editor(), Qt::Key_1, Qt::AltModifier);
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
}

TEST(Pauses, UndoTakesTheWholeLineBack) {
    OpenWindow open;
    open.typePage(headers);
    open.press("A 28½");
    open.desk().page().keepInPause();
    open.press(" 9 gr");
    open.window.undo();
    EXPECT_EQ(storedText(*open.records()), whole(headers));
    open.window.redo();
    EXPECT_EQ(storedText(*open.records()), whole(headers) + "A 28½ 9 gr\n");
}

} // namespace
} // namespace bedlore::testing
