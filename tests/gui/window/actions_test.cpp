// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>
#include <QSignalSpy>
#include <QToolButton>

#include <map>

// The window by its keys: every menu, entry and button has one, and they do what they say.

namespace bedlore::testing {
namespace {

/// The letter after the first single ampersand, small; null where there is none.
QChar accessLetter(const QString& text) {
    for (qsizetype i = 0; i + 1 < text.size(); ++i) {
        if (text[i] != u'&') {
            continue;
        }
        if (text[i + 1] != u'&') {
            return text[i + 1].toLower();
        }
        ++i;
    }
    return {};
}

void expectOwnLetters(const QList<QAction*>& entries, const std::string& where) {
    std::map<QChar, QString> taken;
    for (const QAction* entry : entries) {
        if (entry->isSeparator()) {
            continue;
        }
        const QChar letter = accessLetter(entry->text());
        const std::string words = entry->text().toStdString();
        EXPECT_FALSE(letter.isNull()) << where << ": " << words << " has no letter";
        const auto [other, isNew] = taken.emplace(letter, entry->text());
        EXPECT_TRUE(isNew) << where << ": " << words << " and " << other->second.toStdString();
    }
}

TEST(Actions, HaveALetterOfTheirOwn) {
    OpenWindow open;
    open.typePage(headers); // undo says what it takes back
    expectOwnLetters(open.window.menuBar()->actions(), "menu bar");
    int menus = 0;
    for (const QAction* menu : open.window.menuBar()->actions()) {
        ASSERT_NE(menu->menu(), nullptr);
        expectOwnLetters(menu->menu()->actions(), menu->text().toStdString());
        ++menus;
    }
    EXPECT_EQ(menus, 6) << "book, page, plan, view, units, help";
}

TEST(StartScreen, ItsButtonsTakeReturnAndSpace) {
    const TempFolder folder;
    const std::filesystem::path practice = folder / "practice.gpkg";
    newBook(practice).reset();
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter, Qt::Key_Space}) {
        MainWindow window({.book = {}, .practice = practice, .settings = folder / "settings.ini"});
        window.show();
        auto* button = window.findChild<QPushButton*>(QStringLiteral("startPractice"));
        ASSERT_NE(button, nullptr);
        button->setFocus();
        QTest::keyClick(button, key);
        EXPECT_NE(window.desk(), nullptr) << "key " << key;
    }
}

TEST(ChosenPlace, StaysWhenColoursAndUnitsChange) {
    OpenWindow open;
    open.typePage(eveningPage());
    const AimLine& aim = open.desk().aims().front();
    const Point place = placeOn(aim.tip, aim.direction, 0.8 * aim.reach);
    open.desk().choosePlace(place);
    const auto shown = [&] {
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        return open.part<QLabel>("placeDepth").text();
    };
    ASSERT_FALSE(shown().isEmpty());
    for (const char* name : {"paletteDark", "distanceYards", "textLarger", "depthMetres"}) {
        open.window.action(QString::fromLatin1(name))->trigger();
        EXPECT_TRUE(
            shown().endsWith(QLatin1String(std::string(name) == "depthMetres" ? "m" : "ft")))
            << name << ": " << shown().toStdString();
        EXPECT_EQ(open.desk().chosenPlace(), std::optional(place)) << name;
    }
}

TEST(ChosenPlace, StaysWhenItWasChosenByKeys) {
    OpenWindow open;
    open.typePage(eveningPage());
    QTest::keyClick(&open.editor(), Qt::Key_F6);
    open.window.goToPlan();
    QTest::keyClick(&open.desk().plan(), Qt::Key_Return);
    const auto place = open.desk().chosenPlace();
    ASSERT_TRUE(place.has_value());
    open.window.action(QStringLiteral("paletteNight"))->trigger();
    open.window.action(QStringLiteral("distanceMetres"))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.desk().chosenPlace(), place);
    EXPECT_FALSE(open.part<QLabel>("placeDepth").isHidden());
}

} // namespace
} // namespace bedlore::testing
