// SPDX-License-Identifier: MIT
#include "gui/dialogs/swim_dialog.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QLineEdit>

// The swim gets its place by the keys, and gives it back by undo.

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
             "aim A = 231 magnetic",
             "A 28 9",
             "20 8"});
        ask();
    }
    void ask() { window.action(QStringLiteral("swimPlace"))->trigger(); }
    QLineEdit& field(const char* name) { return part<QLineEdit>(name); }
    [[nodiscard]] bool isOpen() const {
        const auto* dialog = window.findChild<SwimDialog*>();
        return dialog != nullptr && dialog->isVisible();
    }
    const Swim& swim() { return *records()->all<Swim>().begin(); }
    bool isGuessed() { return desk().aims().at(0).guessed; }
};

TEST(SwimDialog, KeepsWhatIsTypedAsOneActThatUndoTakesBack) {
    Asked open;
    ASSERT_TRUE(open.isOpen());
    EXPECT_TRUE(open.isGuessed());
    QTest::keyClicks(&open.field("swimPlace"), QStringLiteral("52.12345, -1.54321"));
    EXPECT_EQ(
        open.part<QLabel>("swimTaken").text(),
        QStringLiteral("taken as 52.12345° north, 1.54321° west"));
    QTest::keyClicks(&open.field("swimTip"), QStringLiteral("6 ft"));
    QTest::keyClick(&open.field("swimTip"), Qt::Key_Return);
    EXPECT_FALSE(open.isOpen());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(std::holds_alternative<GeographicPoint>(open.swim().place));
    EXPECT_FALSE(open.isGuessed()) << "the compass counts now";
    EXPECT_TRUE(open.desk().document().undoWords().contains(QStringLiteral("placed the Point")));
    open.window.undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(std::holds_alternative<std::monostate>(open.swim().place));
    EXPECT_TRUE(open.isGuessed());
}

TEST(SwimDialog, StaysOpenWithASentenceWhereThePlaceCannotBeRead) {
    Asked open;
    QTest::keyClicks(&open.field("swimPlace"), QStringLiteral("by the oak"));
    EXPECT_TRUE(open.part<QLabel>("swimTaken").text().contains(QStringLiteral("is no place")));
    QTest::keyClick(&open.field("swimPlace"), Qt::Key_Return);
    EXPECT_TRUE(open.isOpen());
    auto& fault = open.part<QLabel>("swimFault");
    EXPECT_TRUE(fault.isVisible());
    EXPECT_TRUE(fault.text().contains(QStringLiteral("52.12345, -1.54321"))) << "what to type";
    open.field("swimPlace").clear();
    EXPECT_FALSE(fault.isVisible());
    QTest::keyClicks(&open.field("swimTip"), QStringLiteral("6"));
    QTest::keyClick(&open.field("swimTip"), Qt::Key_Return);
    EXPECT_TRUE(open.isOpen());
    EXPECT_TRUE(fault.text().contains(QStringLiteral("\"6 ft\"")));
    QTest::keyClick(&open.field("swimTip"), Qt::Key_Escape);
    EXPECT_FALSE(open.isOpen());
    EXPECT_EQ(open.swim().tipHeight, std::nullopt) << "nothing was kept";
}

TEST(SwimDialog, SaysThatThePlaceIsPrivateAndWhatItChanges) {
    Asked open;
    EXPECT_TRUE(open.part<QLabel>("swimPrivate").text().contains(QStringLiteral("Everything")));
    EXPECT_TRUE(open.part<QLabel>("swimChanges").text().contains(QStringLiteral("compass")));
}

} // namespace
} // namespace bedlore::testing
