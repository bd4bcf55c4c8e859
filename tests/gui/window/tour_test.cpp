// SPDX-License-Identifier: MIT
#include "gui/document/tour_words.hpp"
#include "gui/panels/tour_panel.hpp"
#include "gui/window/actions.hpp"
#include "gui/window/tour_guide.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QApplication>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>

#include <algorithm>
#include <optional>

// The tour as a person takes it, by the keyboard alone.

namespace bedlore::testing {
namespace {

struct Tour {
    TempFolder folder;
    std::filesystem::path practice = folder / "practice.gpkg";
    std::optional<MainWindow> window;

    Tour() { start(); }
    /// The program begins (anew).
    void start() {
        window.reset();
        window.emplace(
            WindowOptions{.book = {}, .practice = practice, .settings = folder / "settings.ini"});
        window->show();
    }
    void open() {
        window->action(QStringLiteral("practice"))->trigger();
        ASSERT_NE(window->desk(), nullptr);
        settle();
    }
    void settle() { EXPECT_TRUE(waitUntilIdle(window->desk()->jobs())); }
    TourGuide& guide() { return window->guide(); }
    TourPanel& panel() { return *guide().panel(); }
    QAbstractButton& button(const char* name) {
        auto* found = panel().findChild<QAbstractButton*>(QString::fromLatin1(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    QLabel& label(const char* name) {
        return *panel().findChild<QLabel*>(QString::fromLatin1(name));
    }
    /// The key of a button, which in a window without a screen is pressed at the button.
    void press(const char* name) {
        button(name).setFocus();
        QTest::keyClick(&button(name), Qt::Key_Space);
    }
    void goTo(TourStep step) {
        while (guide().step() != step) {
            press(guide().step() < step ? "tourOn" : "tourBack");
        }
    }
    PageEditor& editor() { return window->desk()->page().editor(); }
    /// Types `text` over the line that the cursor is on, and leaves it.
    void typeOver(std::string_view text) {
        QTest::keyClick(&editor(), Qt::Key_Home);
        QTest::keyClick(&editor(), Qt::Key_End, Qt::ShiftModifier);
        const QString letters = QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
        for (const QChar letter : letters) {
            const int key = letter == u' ' ? int(Qt::Key_Space) : 0;
            QKeyEvent press(QEvent::KeyPress, key, Qt::NoModifier, QString(letter));
            QCoreApplication::sendEvent(&editor(), &press);
        }
        QTest::keyClick(&editor(), Qt::Key_Down);
    }
    TourState stateOf(TourStep step) { return tourState(*window->desk()->document().book(), step); }
};

const std::vector<TourStep> mistakes{
    TourStep::FeetForMetres,
    TourStep::OneWrap,
    TourStep::AimsSwapped,
    TourStep::Sticks,
    TourStep::Pulls,
    TourStep::Level,
    TourStep::FloatUp};

TEST(Tour, IsOfferedByTheStartPanelAndOpenedByReturn) {
    Tour tour;
    auto* start = tour.window->findChild<QPushButton*>(QStringLiteral("startPractice"));
    ASSERT_NE(start, nullptr);
    EXPECT_EQ(tour.window->focusWidget(), start) << "the first time it is what Return opens";
    QTest::keyClick(start, Qt::Key_Return);
    ASSERT_NE(tour.window->desk(), nullptr);
    tour.settle();
    EXPECT_TRUE(std::filesystem::exists(tour.practice));
    EXPECT_FALSE(tour.panel().isHidden());
    EXPECT_EQ(tour.guide().step(), TourStep::Welcome);
    EXPECT_EQ(QApplication::activeModalWidget(), nullptr) << "nothing pops up";
}

TEST(Tour, GoesOnByItselfAsEachMistakeIsMendedOnThePage) {
    Tour tour;
    tour.open();
    for (const TourStep step : mistakes) {
        const std::string name(tourStepName(step));
        tour.goTo(step);
        EXPECT_EQ(tour.stateOf(step), TourState::Open) << name;
        tour.press("tourPlace");
        tour.settle();
        const TourMending mending = tourMending(step);
        ASSERT_EQ(
            tour.editor().lines().at(tour.editor().currentLine()).toStdString(), mending.planted);
        tour.typeOver(mending.mended);
        if (step == TourStep::AimsSwapped) {
            EXPECT_EQ(tour.guide().step(), step) << "one of two lines is not enough";
            EXPECT_EQ(tour.label("tourRemark").text(), tourWords(step).otherwise);
            tour.typeOver("aim D = 17 true");
        }
        tour.settle();
        EXPECT_EQ(tour.stateOf(step), TourState::Done) << name;
        EXPECT_EQ(static_cast<int>(tour.guide().step()), static_cast<int>(step) + 1) << name;
        EXPECT_EQ(tour.label("tourPraise").text(), tourWords(step).done);
        EXPECT_FALSE(tour.label("tourPraise").isHidden());
    }
    EXPECT_EQ(tour.guide().step(), TourStep::Hump);
}

TEST(Tour, ItsKeysWorkFromThePage) {
    Tour tour;
    tour.open();
    tour.window->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&*tour.window));
    tour.editor().setFocus();
    // A button that is pressed by its key shows so for a moment before it acts.
    const auto press = [&](const char* name, Qt::Key key, Qt::KeyboardModifier with) {
        QSignalSpy clicked(&tour.button(name), &QAbstractButton::clicked);
        QTest::keyClick(&tour.editor(), key, with);
        EXPECT_TRUE(clicked.count() == 1 || clicked.wait()) << name;
    };
    press("tourOn", Qt::Key_F8, Qt::NoModifier);
    press("tourOn", Qt::Key_F8, Qt::NoModifier);
    EXPECT_EQ(tour.guide().step(), TourStep::AskTheMap);
    press("tourBack", Qt::Key_F8, Qt::ShiftModifier);
    EXPECT_EQ(tour.guide().step(), TourStep::TypeALine);
    tour.editor().goToLine(0);
    press("tourPlace", Qt::Key_F3, Qt::NoModifier);
    EXPECT_EQ(tour.editor().currentLine(), tour.editor().document()->blockCount() - 1);
}

TEST(Tour, TypedLineIsNoticed) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::TypeALine);
    tour.press("tourPlace");
    tour.typeOver("A 16 12 si");
    QTest::keyClick(&tour.editor(), Qt::Key_Return);
    tour.settle();
    EXPECT_EQ(tour.guide().step(), TourStep::AskTheMap);
    EXPECT_EQ(tour.label("tourPraise").text(), tourWords(TourStep::TypeALine).done);
    tour.window->undo();
    EXPECT_EQ(tour.stateOf(TourStep::TypeALine), TourState::Open) << "undo works as everywhere";
    EXPECT_TRUE(tour.label("tourPraise").isHidden()) << "the line is not kept any more";
    EXPECT_TRUE(tour.label("tourRemark").text().contains(QStringLiteral("taken back")));
    EXPECT_FALSE(tour.label("tourRemark").isHidden());
    tour.window->redo();
    EXPECT_EQ(tour.label("tourPraise").text(), tourWords(TourStep::TypeALine).done);
    EXPECT_FALSE(tour.label("tourPraise").isHidden());
    EXPECT_TRUE(tour.label("tourRemark").isHidden());
}

TEST(Tour, DoesNotPraiseAPageThatASlipSpoiled) {
    for (const TourStep step : {TourStep::FeetForMetres, TourStep::OneWrap}) {
        Tour tour;
        tour.open();
        tour.goTo(step);
        tour.press("tourPlace");
        const int line = tour.editor().currentLine();
        const QString next = tour.editor().lines().at(line + 1);
        tour.editor().goToLine(line + 1);
        tour.typeOver("20 20"); // the line below, by a slip
        EXPECT_TRUE(tour.label("tourRemark").text().contains(next)) << next.toStdString();
        tour.editor().goToLine(line);
        tour.typeOver(tourMending(step).mended);
        tour.settle();
        ASSERT_EQ(tour.stateOf(step), TourState::Done);
        EXPECT_EQ(tour.guide().step(), step) << "it does not go on";
        EXPECT_TRUE(tour.label("tourPraise").isHidden());
        EXPECT_TRUE(tour.label("tourRemark").text().contains(next));
        tour.editor().goToLine(line + 1);
        tour.typeOver(next.toStdString());
        tour.settle();
        EXPECT_EQ(static_cast<int>(tour.guide().step()), static_cast<int>(step) + 1);
        EXPECT_EQ(tour.label("tourPraise").text(), tourWords(step).done);
        EXPECT_TRUE(tour.label("tourRemark").isHidden());
        tour.editor().goToLine(line + 1);
        tour.typeOver("20 20"); // afterwards, too
        EXPECT_TRUE(tour.label("tourPraise").isHidden());
        EXPECT_TRUE(tour.label("tourRemark").text().contains(next));
    }
}

TEST(Tour, CallsNoLineGoneThatStillStands) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::OneWrap);
    tour.press("tourPlace");
    const int line = tour.editor().currentLine();
    const QString next = tour.editor().lines().at(line + 1);
    ASSERT_TRUE(next.startsWith(u'-'))
        << "it is counted from the line above: " << next.toStdString();
    QTest::keyClick(&tour.editor(), Qt::Key_Return);
    QTest::keyClick(&tour.editor(), Qt::Key_Down);
    EXPECT_TRUE(tour.label("tourRemark").isHidden()) << "a line that was opened and left";
    tour.editor().goToLine(line);
    QTest::keyClick(&tour.editor(), Qt::Key_Return);
    QTest::keyClick(&tour.editor(), Qt::Key_Return); // a blank line that he wants
    tour.settle();
    const QString said = tour.label("tourRemark").text();
    EXPECT_TRUE(said.contains(next)) << said.toStdString();
    EXPECT_FALSE(said.contains(QStringLiteral("not there"))) << said.toStdString();
}

TEST(Tour, TakesHimToTheAimThatShowsTheSign) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::Hump); // of the other swim than the one that is open
    tour.press("tourPlace");
    tour.settle();
    Desk& desk = *tour.window->desk();
    ASSERT_TRUE(desk.chosenAim().has_value());
    EXPECT_EQ(desk.aims()[*desk.chosenAim()].label, "F");
    EXPECT_TRUE(desk.chosenPlace().has_value());
}

TEST(Tour, SaysThatTheHumpIsNotToBeMended) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::Hump);
    EXPECT_TRUE(tour.label("tourRemark").isHidden());
    tour.press("tourPlace");
    tour.typeOver("10½ 8½");
    EXPECT_EQ(tour.label("tourRemark").text(), tourWords(TourStep::Hump).otherwise);
    EXPECT_FALSE(tour.label("tourRemark").isHidden());
    EXPECT_EQ(tour.guide().step(), TourStep::Hump);
    tour.window->undo();
    EXPECT_TRUE(tour.label("tourRemark").isHidden());
}

TEST(Tour, ComesBackWhereHeWasAndStaysAwayWhenClosed) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::Sticks);
    ASSERT_TRUE(tour.window->closeBook());
    EXPECT_TRUE(tour.panel().isHidden());
    tour.start();
    ASSERT_TRUE(tour.window->openBook(tour.practice));
    tour.settle();
    EXPECT_FALSE(tour.panel().isHidden());
    EXPECT_EQ(tour.guide().step(), TourStep::Sticks);
    QTest::keyClick(&tour.button("tourOn"), Qt::Key_Escape);
    EXPECT_TRUE(tour.panel().isHidden());
    tour.start();
    ASSERT_TRUE(tour.window->openBook(tour.practice));
    tour.settle();
    EXPECT_TRUE(tour.panel().isHidden());
    tour.open();
    EXPECT_FALSE(tour.panel().isHidden());
    EXPECT_EQ(tour.guide().step(), TourStep::Sticks);
}

TEST(Tour, StandsBesideNoOtherBook) {
    Tour tour;
    tour.open();
    ASSERT_TRUE(tour.window->newBook(tour.folder / "Harl Pit.gpkg"));
    tour.settle();
    EXPECT_TRUE(tour.panel().isHidden());
}

TEST(Tour, StartsAgainOnlyWhenHeSaysSoAndKeepsWhatHeChanged) {
    Tour tour;
    tour.open();
    tour.goTo(TourStep::Sticks);
    tour.press("tourPlace");
    tour.typeOver("sticks 13 ft");
    tour.settle();
    tour.press("tourAnew");
    EXPECT_TRUE(tour.panel().isAsking());
    EXPECT_TRUE(tour.label("tourText").text().contains(QStringLiteral("practice.kept-1")));
    EXPECT_EQ(QApplication::activeModalWidget(), nullptr) << "asked on the panel itself";
    EXPECT_TRUE(tour.button("tourNo").hasFocus()) << "a Return too many changes nothing";
    tour.press("tourNo");
    EXPECT_EQ(tour.stateOf(TourStep::Sticks), TourState::Done);
    tour.press("tourAnew");
    tour.press("tourYes");
    ASSERT_NE(tour.window->desk(), nullptr);
    tour.settle();
    EXPECT_EQ(tour.guide().step(), TourStep::Welcome);
    EXPECT_FALSE(tour.panel().isHidden());
    EXPECT_FALSE(tour.panel().isAsking());
    EXPECT_EQ(tour.stateOf(TourStep::Sticks), TourState::Open);
    const auto kept = openBook(tour.folder / "practice.kept-1.gpkg");
    EXPECT_EQ(tourState(*kept->book(), TourStep::Sticks), TourState::Done);
}

TEST(Tour, SaysWhyThePracticeWaterCannotBeMade) {
    Tour tour;
    {
        const FullDisk full;
        tour.window->action(QStringLiteral("practice"))->trigger();
    }
    EXPECT_EQ(tour.window->desk(), nullptr);
    auto* message = tour.window->findChild<QLabel*>(QStringLiteral("message"));
    EXPECT_FALSE(message->text().isEmpty());
    EXPECT_FALSE(std::filesystem::exists(tour.practice));
    tour.open();
}

TEST(Tour, HasKeysAndNamesForAScreenReader) {
    Tour tour;
    tour.open();
    const auto keyOf = [&](const char* name) {
        return tour.button(name).shortcut().toString(QKeySequence::PortableText);
    };
    EXPECT_EQ(keyOf("tourPlace"), QStringLiteral("F3"));
    EXPECT_EQ(keyOf("tourOn"), QStringLiteral("F8"));
    EXPECT_EQ(keyOf("tourBack"), QStringLiteral("Shift+F8"));
    for (const QAction* action : tour.window->findChildren<QAction*>()) {
        for (const char* name : {"tourPlace", "tourOn", "tourBack"}) {
            EXPECT_NE(action->shortcut(), tour.button(name).shortcut())
                << action->text().toStdString();
        }
    }
    for (const char* name : {"tourPlace", "tourOn", "tourBack", "tourAnew", "tourClose"}) {
        EXPECT_NE(tour.button(name).focusPolicy() & Qt::TabFocus, 0) << name;
    }
    const auto listed = keyRows(*tour.window);
    for (const char* name : {"tourPlace", "tourOn", "tourBack"}) {
        EXPECT_TRUE(std::any_of(
            listed.begin(),
            listed.end(),
            [&](const KeyRow& row) {
                return row.key == tour.button(name).shortcut().toString(QKeySequence::NativeText);
            }))
            << name << " is in the list of keys";
    }
    EXPECT_FALSE(tour.panel().accessibleName().isEmpty());
    for (std::size_t i = 0; i + 1 < tourStepCount; ++i) {
        EXPECT_TRUE(
            tour.panel().accessibleDescription().contains(tourWords(tour.guide().step()).text));
        tour.press("tourOn");
    }
    EXPECT_EQ(tour.guide().step(), TourStep::YourOwn);
    EXPECT_FALSE(tour.button("tourOn").isEnabled());
}

TEST(Tour, IsAsHighAtEveryStep) {
    Tour tour;
    tour.window->resize(1280, 720);
    tour.open();
    QCoreApplication::processEvents();
    const int height = tour.panel().height();
    for (std::size_t i = 1; i < tourStepCount; ++i) {
        tour.press("tourOn");
        QCoreApplication::processEvents();
        EXPECT_EQ(tour.panel().height(), height) << "step " << i + 1;
    }
    EXPECT_LE(height, 720 / 3);
}

} // namespace
} // namespace bedlore::testing
