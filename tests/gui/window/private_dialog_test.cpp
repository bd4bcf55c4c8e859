// SPDX-License-Identifier: MIT
#include "gui/dialogs/private_dialog.hpp"
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QListWidget>
#include <gtest/gtest.h>

// A spot is kept back by the keys, and leaves no map.

namespace bedlore::testing {
namespace {

struct Asked : OpenWindow {
    Asked() {
        typePage(
            {"swim the Point",
             "date 2025-04-12",
             "sticks 12 ft",
             "distances wraps",
             "depths ft",
             "A 28 9",
             "20 8",
             "TOOTH = A 26",
             "GAP = A 22"});
    }
    void ask() { window.action(QStringLiteral("privateThings"))->trigger(); }
    [[nodiscard]] bool isOpen() const {
        const auto* dialog = window.findChild<PrivateDialog*>();
        return dialog != nullptr && dialog->isVisible();
    }
    bool isPrivate(const std::string& name) {
        for (const Spot& spot : records()->all<Spot>()) {
            if (spot.name == name) {
                return spot.isPrivate;
            }
        }
        ADD_FAILURE() << "no spot " << name;
        return false;
    }
    /// Names of the spots on a map that everything but private things may leave with.
    std::vector<std::string> leaving() {
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
        const auto bed = desk().builder().map();
        const MapDrawing map = drawMap(
            *bed->book,
            bed->reduction,
            bed->grid,
            {.level = bed->level, .tier = SharingTier::All, .swim = std::nullopt});
        std::vector<std::string> names;
        for (const DrawnSpot& spot : map.spots) {
            names.push_back(spot.name);
        }
        return names;
    }
};

TEST(PrivateDialog, KeepsASpotBackAsOneActThatUndoTakesBack) {
    Asked open;
    EXPECT_EQ(open.leaving().size(), 2U);
    open.ask();
    ASSERT_TRUE(open.isOpen());
    auto& list = open.part<QListWidget>("privateList");
    ASSERT_EQ(list.count(), 2);
    EXPECT_TRUE(list.item(1)->text().startsWith(QStringLiteral("TOOTH"))) << "by their names";
    QTest::keyClick(&list, Qt::Key_Down);
    QTest::keyClick(&list, Qt::Key_Space);
    QTest::keyClick(&list, Qt::Key_Return);
    EXPECT_FALSE(open.isOpen());
    EXPECT_TRUE(open.isPrivate("TOOTH"));
    EXPECT_FALSE(open.isPrivate("GAP"));
    EXPECT_EQ(open.leaving(), std::vector<std::string>{"GAP"});
    open.window.undo();
    EXPECT_FALSE(open.isPrivate("TOOTH"));
}

TEST(PrivateDialog, HoldsThroughLaterEditsOfItsLine) {
    Asked open;
    open.ask();
    auto& list = open.part<QListWidget>("privateList");
    QTest::keyClick(&list, Qt::Key_Space);
    QTest::keyClick(&list, Qt::Key_Return);
    ASSERT_TRUE(open.isPrivate("GAP"));
    QTest::keyClick(&open.editor(), Qt::Key_End, Qt::ControlModifier);
    QTest::keyClicks(&open.editor(), QStringLiteral("½"));
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    EXPECT_TRUE(open.isPrivate("GAP"));
}

TEST(PrivateDialog, ChangesNothingWhereItIsLeft) {
    Asked open;
    const auto before = open.records();
    open.ask();
    auto& list = open.part<QListWidget>("privateList");
    QTest::keyClick(&list, Qt::Key_Space);
    QTest::keyClick(&list, Qt::Key_Escape);
    EXPECT_FALSE(open.isOpen());
    EXPECT_EQ(open.records(), before);
}

TEST(PrivateDialog, SaysWhatToWriteWhereThereIsNothingYet) {
    OpenWindow open;
    open.typePage({"swim the Point", "date 2025-04-12"});
    open.window.action(QStringLiteral("privateThings"))->trigger();
    EXPECT_EQ(open.window.findChild<PrivateDialog*>(), nullptr);
    const QString said = open.window.findChild<MessageBar*>()->text();
    EXPECT_TRUE(said.contains(QStringLiteral("PINE = A"))) << said.toStdString();
}

} // namespace
} // namespace bedlore::testing
