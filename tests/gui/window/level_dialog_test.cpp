// SPDX-License-Identifier: MIT
#include "gui/dialogs/level_dialog.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>

// What the level is read from, said once by the keys.

namespace bedlore::testing {
namespace {

struct Asked : OpenWindow {
    Asked() {
        typePage(
            {"swim the Point",
             "date 2025-04-12",
             "level 2 steps",
             "sticks 12 ft",
             "distances wraps",
             "depths ft",
             "A 28 9",
             "20 8"});
        window.action(QStringLiteral("levelMark"))->trigger();
    }
    QLineEdit& field(const char* name) { return part<QLineEdit>(name); }
    [[nodiscard]] bool isOpen() const {
        const auto* dialog = window.findChild<LevelDialog*>();
        return dialog != nullptr && dialog->isVisible();
    }
    const LevelReference& mark() { return records()->all<Water>().begin()->levelReference; }
    [[nodiscard]] QString taken() { return part<QLabel>("levelTaken").text(); }
    /// Of the only visit, above the mark.
    Length level() {
        const auto bed = desk().builder().map();
        return bed->reduction.visits.at(0).level.aboveDatum;
    }
};

TEST(LevelDialog, GivesStepsTheirHeightAsOneActThatUndoTakesBack) {
    Asked open;
    ASSERT_TRUE(open.isOpen());
    EXPECT_TRUE(open.taken().contains(QStringLiteral("no height")));
    QTest::keyClicks(&open.field("levelWords"), QStringLiteral("steps showing"));
    QTest::keyClicks(&open.field("levelStep"), QStringLiteral("15 cm"));
    EXPECT_TRUE(open.taken().contains(QStringLiteral("higher"))) << open.taken().toStdString();
    QTest::keyClick(&open.part<QComboBox>("levelCounts"), Qt::Key_Down);
    EXPECT_TRUE(open.taken().contains(QStringLiteral("lower"))) << open.taken().toStdString();
    QTest::keyClick(&open.field("levelStep"), Qt::Key_Return);
    EXPECT_FALSE(open.isOpen());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.mark().words, "steps showing");
    EXPECT_EQ(open.mark().stepHeight, (Entered{15.0, Unit::Centimetre, "15 cm"}));
    EXPECT_EQ(open.mark().counts, LevelCounts::DownWithWater);
    // Two steps of 0.15 m showing: 0.30 m below the mark, by hand.
    EXPECT_NEAR(open.level() / metre, -0.30, 1e-9);
    open.window.undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.mark(), LevelReference());
}

TEST(LevelDialog, StaysOpenWithASentenceWhereAStepCannotBeRead) {
    Asked open;
    for (const char* text : {"15", "two", "-15 cm", "0 in", "20 ft"}) {
        open.field("levelStep").clear();
        QTest::keyClicks(&open.field("levelStep"), QString::fromLatin1(text));
        QTest::keyClick(&open.field("levelStep"), Qt::Key_Return);
        EXPECT_TRUE(open.isOpen()) << text;
        EXPECT_TRUE(open.part<QLabel>("levelFault").text().contains(QStringLiteral("\"6 in\"")))
            << "what to type";
    }
    QTest::keyClick(&open.field("levelStep"), Qt::Key_Escape);
    EXPECT_FALSE(open.isOpen());
    EXPECT_EQ(open.mark(), LevelReference()) << "nothing was kept";
}

TEST(LevelDialog, KeepsNothingNewWhereNothingIsTyped) {
    Asked open;
    const auto before = open.records();
    QTest::keyClick(&open.field("levelWords"), Qt::Key_Return);
    EXPECT_FALSE(open.isOpen());
    EXPECT_EQ(open.records(), before);
}

} // namespace
} // namespace bedlore::testing
