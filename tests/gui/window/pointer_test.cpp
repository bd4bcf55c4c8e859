// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QEvent>
#include <QMouseEvent>
#include <QSignalSpy>

// What the foot says of the place under the pointer holds for the bed that is shown.

namespace bedlore::testing {
namespace {

const std::vector<std::string> shortPage{
    "swim the Point",
    "date 2025-04-12",
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "aim A = 10 true",
    "A 28 9 gr",
    "24 9",
    "20 9"};

struct Pointed : OpenWindow {
    QString words;
    Pointed() {
        typePage(shortPage);
        QObject::connect(
            &desk(), &Desk::readout, &window, [this](const QString& now) { words = now; });
    }
    void moveTo(QPointF at, Qt::MouseButtons buttons = Qt::NoButton) {
        send(QEvent::MouseMove, at, Qt::NoButton, buttons);
    }
    void send(QEvent::Type type, QPointF at, Qt::MouseButton button, Qt::MouseButtons buttons) {
        PlanView& plan = desk().plan();
        QMouseEvent event(type, at, plan.mapToGlobal(at), button, buttons, Qt::NoModifier);
        QCoreApplication::sendEvent(&plan, &event);
    }
    void leave() {
        QEvent event(QEvent::Leave);
        QCoreApplication::sendEvent(&desk().plan(), &event);
    }
    /// In the plan, on a reading of the page.
    QPointF onReading() {
        return desk().plan().positionOf(desk().builder().map()->reduction.soundings.at(1).place);
    }
};

TEST(Pointer, WordsGoWhenThePointerLeaves) {
    Pointed open;
    open.moveTo(open.onReading());
    EXPECT_TRUE(open.words.contains(QStringLiteral("9 ft"))) << open.words.toStdString();
    open.leave();
    EXPECT_EQ(open.words, QString());
}

TEST(Pointer, WordsGoWhenADragEndsOutside) {
    Pointed open;
    const QPointF outside(-40.0, -40.0);
    open.moveTo(open.onReading());
    open.send(QEvent::MouseButtonPress, open.onReading(), Qt::LeftButton, Qt::LeftButton);
    open.leave();
    open.moveTo(outside, Qt::LeftButton);
    open.send(QEvent::MouseButtonRelease, outside, Qt::LeftButton, Qt::NoButton);
    EXPECT_EQ(open.words, QString());
}

TEST(Pointer, WordsFollowTheBedThatChangesUnderIt) {
    Pointed open;
    open.moveTo(open.onReading());
    const QString before = open.words;
    for (int line = 6; line < 9; ++line) {
        open.editor().goToLine(line);
        QTest::keyClick(&open.editor(), Qt::Key_Home);
        QTest::keyClick(&open.editor(), Qt::Key_End, Qt::ShiftModifier);
        open.press(line == 6 ? "A 28 4 gr" : line == 7 ? "24 4" : "20 4");
    }
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_NE(open.words, before);
    EXPECT_TRUE(open.words.startsWith(QStringLiteral("under the pointer: 4 ft")))
        << open.words.toStdString();
    open.leave();
    open.editor().goToLine(8);
    open.type("");
    open.type("18 4");
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.words, QString()) << "there is no pointer";
}

TEST(Pointer, WordsOfTheKeysGoWithTheFocus) {
    Pointed open;
    open.desk().plan().setFocus(Qt::ShortcutFocusReason);
    EXPECT_TRUE(open.words.startsWith(QStringLiteral("under the cross: ")))
        << open.words.toStdString();
    open.editor().setFocus(Qt::ShortcutFocusReason);
    EXPECT_EQ(open.words, QString());
}

} // namespace
} // namespace bedlore::testing
