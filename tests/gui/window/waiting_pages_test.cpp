// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QApplication>
#include <QEvent>
#include <QLabel>
#include <QMenu>
#include <QToolButton>

// Pages that do not say their date or their swim yet: nothing on them may be out of reach.

namespace bedlore::testing {
namespace {

QMenu& dayChoices(OpenWindow& open) {
    return *open.part<QToolButton>("whereVisit").menu();
}

QStringList words(const QMenu& menu) {
    QStringList all;
    for (const QAction* action : menu.actions()) {
        if (!action->isSeparator()) {
            all << action->text();
        }
    }
    return all;
}

void choose(OpenWindow& open, const QString& text) {
    for (QAction* action : dayChoices(open).actions()) {
        if (action->text() == text) {
            action->trigger();
            return;
        }
    }
    ADD_FAILURE() << "no choice " << text.toStdString();
}

/// Begins a new page whose date stays blank, and types one line on it.
void typeUndated(OpenWindow& open, const std::string& line) {
    open.window.newPage();
    open.editor().goToLine(1);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    open.type(line);
}

TEST(WaitingPages, AreAmongTheDaysAndOpenFromThere) {
    OpenWindow open;
    open.typePage(eveningPage());
    const QString day = QStringLiteral("12 April 2025, level 0.35 m");
    typeUndated(open, "a long note");
    typeUndated(open, "another note");
    choose(open, day);
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("wind SW3")));
    const QString first = QStringLiteral("page without a date, begins: a long note");
    const QString second = QStringLiteral("page without a date, begins: another note");
    EXPECT_EQ(
        words(dayChoices(open)), (QStringList{day, first, second, QStringLiteral("New page")}));
    choose(open, first);
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("a long note")));
    EXPECT_EQ(open.part<QToolButton>("whereVisit").text(), first);
    choose(open, second);
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("another note")));
}

TEST(DaysOfTwoPages, OfferBothAndSayWhichIsShown) {
    OpenWindow open;
    const std::vector<std::string> head{
        "swim the Point", "date 2025-04-12", "sticks 12 ft", "distances wraps", "depths ft"};
    std::vector<std::string> lines = head;
    lines.insert(lines.end(), {"A 28 9", "20 8 the first page"});
    open.typePage(lines);
    open.window.newPage();
    lines = head;
    lines.insert(lines.end(), {"B 27 9", "19 8 the second page"});
    open.typePage(lines);
    const QString day = QStringLiteral("12 April 2025");
    const QString second = QStringLiteral("12 April 2025, page 2");
    EXPECT_EQ(words(dayChoices(open)), (QStringList{day, second, QStringLiteral("New page")}));
    EXPECT_EQ(open.part<QToolButton>("whereVisit").text(), second);
    choose(open, day);
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("the first page")));
    EXPECT_EQ(open.part<QToolButton>("whereVisit").text(), day);
    choose(open, second);
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("the second page")));
    EXPECT_EQ(open.part<QToolButton>("whereVisit").text(), second);
}

TEST(PageKeys, GoFromPageToPageAndSayWhereThereIsNone) {
    OpenWindow open;
    for (const char* day : {"2025-04-12", "2025-05-03"}) {
        open.typePage(
            {"swim the Point",
             std::string("date ") + day,
             "sticks 12 ft",
             "distances wraps",
             "depths ft",
             std::string("A 28 9 of ") + day});
        open.window.newPage();
    }
    const auto holds = [&](const char* words) {
        return open.editor().toPlainText().contains(QLatin1String(words));
    };
    const auto press = [&](Qt::Key key) {
        QTest::keyClick(&open.editor(), key, Qt::ControlModifier);
    };
    const auto said = [&] { return open.window.findChild<MessageBar*>()->text(); };
    press(Qt::Key_PageUp); // from a page that has not begun
    EXPECT_TRUE(holds("of 2025-05-03")) << open.editor().toPlainText().toStdString();
    press(Qt::Key_PageUp);
    EXPECT_TRUE(holds("of 2025-04-12"));
    press(Qt::Key_PageUp);
    EXPECT_TRUE(holds("of 2025-04-12"));
    EXPECT_TRUE(said().contains(QStringLiteral("first page"))) << said().toStdString();
    press(Qt::Key_PageDown);
    EXPECT_TRUE(holds("of 2025-05-03"));
    press(Qt::Key_PageDown);
    EXPECT_TRUE(said().contains(QStringLiteral("last page"))) << said().toStdString();
}

TEST(DaysOfTwoPages, LeadToThePageOfTheReadingsWhereAnotherNamesTheDay) {
    OpenWindow open;
    open.typePage(
        {"swim the Point",
         "date 2025-04-12",
         "sticks 12 ft",
         "distances wraps",
         "depths ft",
         "A 28 9 the first day",
         "date 2025-05-03"});
    open.window.newPage();
    open.typePage(
        {"swim the Point",
         "date 2025-05-03",
         "sticks 12 ft",
         "distances wraps",
         "depths ft",
         "B 27 9 the second day"});
    choose(open, QStringLiteral("12 April 2025"));
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("the first day")));
    choose(open, QStringLiteral("3 May 2025"));
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("the second day")));
}

TEST(WaitingPages, OfABookWithoutAnyDayAreReachedToo) {
    OpenWindow open;
    open.typePage({"swim the Point", "one"});
    typeUndated(open, "two");
    choose(open, QStringLiteral("page without a date, begins: one"));
    EXPECT_TRUE(open.editor().toPlainText().contains(QStringLiteral("one")));
}

TEST(WaitingPages, SayWhatTheyWaitFor) {
    OpenWindow open;
    auto& waits = open.part<QLabel>("pageWaits");
    open.typePage({"sticks 12 ft"});
    EXPECT_TRUE(waits.isHidden()) << "its headers are being typed";
    open.typePage({"swim the Point", "distances wraps", "depths ft", "A 28 9"});
    EXPECT_FALSE(waits.isHidden());
    EXPECT_EQ(
        waits.text(),
        QStringLiteral("The reading on line 4 waits for a date: put a line like \"date "
                       "2025-04-12\" above it."));
    open.typePage({"distances wraps", "depths ft", "A 28 9"});
    EXPECT_TRUE(waits.text().contains(QStringLiteral("waits for a swim and a date:")));
    open.typePage({"date 2025-04-12", "distances wraps", "depths ft", "A 28 9"});
    EXPECT_TRUE(waits.text().contains(QStringLiteral("waits for a swim:")));
    open.typePage({"swim the Point", "date 2025-04-12", "distances wraps", "depths ft", "A 28 9"});
    EXPECT_TRUE(waits.isHidden());
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
}

TEST(WaitingPages, AreNamedOnTheEmptyPlan) {
    OpenWindow open;
    const auto words = [&] { return open.desk().plan().wordsOnPaper(); };
    const std::vector<std::string> undated{
        "swim the Point", "distances wraps", "depths ft", "A 28 9", "27 8"};
    open.typePage(undated);
    EXPECT_EQ(
        words(), QStringLiteral("2 readings wait for a date that their page does not say yet."));
    open.editor().goToLine(0);
    open.type("");
    open.press("date 2025-04-12");
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(words(), QString()) << "the bed is drawn";
    open.desk().undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(words().startsWith(QStringLiteral("2 readings wait for a date")));
}

TEST(WaitingPages, AreNamedOnAPlanWithReadingsButNoDepth) {
    OpenWindow open;
    open.typePage(
        {"swim the Point", "date 2025-04-12", "distances wraps", "depths ft", "A 28 gr", "26 si"});
    const auto words = [&] { return open.desk().plan().picture()->drawing->emptyWords; };
    EXPECT_EQ(words(), "No depth has been noted yet, so there is no bed to draw.");
    typeUndated(open, "distances wraps");
    open.type("depths ft");
    open.type("A 28 9");
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(
        words(),
        "No depth is on the map yet. 1 reading waits for a date that its page does not say yet.");
    open.desk().undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(words(), "No depth has been noted yet, so there is no bed to draw.");
}

TEST(WaitingPages, JoinTheirDayOnceItIsTyped) {
    OpenWindow open;
    open.typePage(eveningPage());
    typeUndated(open, "a long note");
    EXPECT_EQ(words(dayChoices(open)).size(), 3);
    open.editor().goToLine(1);
    open.press("2025-05-01");
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_EQ(
        words(dayChoices(open)),
        (QStringList{
            QStringLiteral("12 April 2025, level 0.35 m"),
            QStringLiteral("1 May 2025"),
            QStringLiteral("New page")}));
}

/// A book with a day, and after it a page without a date.
struct LeftWaiting : OpenWindow {
    Id<Page> day;
    Id<Page> waits;
    LeftWaiting() {
        typePage(eveningPage());
        day = desk().shownPage().value();
        typeUndated(*this, "A 28 9 gr");
        waits = desk().shownPage().value();
        EXPECT_NE(day, waits);
    }
    [[nodiscard]] WindowOptions places() const {
        return {.book = {}, .practice = {}, .settings = folder / "settings.ini"};
    }
};

TEST(LeftBook, IsOpenedOnThePageWhereHeWas) {
    LeftWaiting open;
    ASSERT_TRUE(open.window.closeBook());
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(open.desk().shownPage(), open.waits);
    open.desk().goToPage(open.day);
    ASSERT_TRUE(open.window.closeBook());
    {
        MainWindow again{open.places()};
        ASSERT_TRUE(again.openBook(open.book));
        EXPECT_EQ(again.desk()->shownPage(), open.day);
        again.desk()->newPage(); // nothing is typed there
        again.close();
    }
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(open.desk().shownPage(), open.waits) << "he was on none: the page that waits";
}

TEST(LeftBook, IsOpenedOnThePageThatWaitsByWhomeverDoesNotKnowIt) {
    LeftWaiting open;
    ASSERT_TRUE(open.window.closeBook());
    MainWindow other{{.book = {}, .practice = {}, .settings = open.folder / "other.ini"}};
    ASSERT_TRUE(other.openBook(open.book));
    EXPECT_EQ(other.desk()->shownPage(), open.waits);
}

TEST(LeftBook, SaysOnTheStartScreenThatAPageWaits) {
    LeftWaiting open;
    ASSERT_TRUE(open.window.closeBook());
    EXPECT_EQ(
        open.part<QLabel>("recentWaits").text(),
        QStringLiteral("A page with 1 line waits for a date."));
    ASSERT_TRUE(open.window.openBook(open.book));
    open.editor().goToLine(1);
    open.press("2025-05-01");
    ASSERT_TRUE(open.window.closeBook());
    QApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    EXPECT_EQ(open.window.findChild<QLabel*>(QStringLiteral("recentWaits")), nullptr);
}

} // namespace
} // namespace bedlore::testing
