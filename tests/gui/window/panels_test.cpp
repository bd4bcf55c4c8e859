// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTreeView>
#include <QTreeWidget>

#include <cmath>

// The panels that list: aims with what was felt along them, and his own shorthand.

namespace bedlore::testing {
namespace {

void trigger(OpenWindow& open, const char* action) {
    open.window.action(QString::fromLatin1(action))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
}

std::string cell(const QModelIndex& row, int column) {
    return row.siblingAtColumn(column).data().toString().toStdString();
}

struct Listed : OpenWindow {
    Listed() {
        typePage(eveningPage());
        trigger(*this, "panelAims");
    }
    QTreeView& tree() { return part<QTreeView>("aimsTree"); }
};

TEST(AimsPanel, ListsAimsFromLeftToRightAndSaysHowTheyWereGot) {
    Listed open;
    const QAbstractItemModel& model = *open.tree().model();
    ASSERT_EQ(model.rowCount(), 3);
    EXPECT_EQ(cell(model.index(0, 0), 0), "A: on the dead pine; angle guessed · 1 cast");
    EXPECT_EQ(cell(model.index(1, 0), 0), "B: 10° right of A; angle guessed · 1 cast");
    EXPECT_EQ(cell(model.index(2, 0), 0), "C: 1 fist right of B; angle guessed · 1 cast");
    const QModelIndex a = model.index(0, 0);
    ASSERT_EQ(model.rowCount(a), 17);
    EXPECT_EQ(cell(model.index(0, 0, a), 0), "cast 1");
    EXPECT_EQ(cell(model.index(0, 0, a), 1), "32 wraps");
    EXPECT_EQ(cell(model.index(0, 0, a), 2), "6 ft");
    EXPECT_EQ(cell(model.index(1, 0, a), 3), "gravel");
    EXPECT_EQ(cell(model.index(16, 0, a), 1), "16 wraps") << "from far to near";
}

TEST(AimsPanel, ShowsWholeRowsAndAtLeastFour) {
    Listed open;
    for (const QSize size : {QSize(1280, 720), QSize(1280, 737), QSize(1400, 901)}) {
        SCOPED_TRACE(size.height());
        open.window.resize(size);
        QCoreApplication::processEvents();
        const int row = open.tree().visualRect(open.tree().model()->index(0, 0)).height();
        ASSERT_GT(row, 0);
        const int room = open.tree().viewport()->height();
        EXPECT_GE(room / row, 4);
        EXPECT_LE(room % row, 2) << "no more than the frame over whole rows";
    }
}

TEST(AimsPanel, SaysWhatGuessedAnglesMeanUntilOneIsSaid) {
    Listed open;
    auto& words = open.part<QLabel>("aimsGuessed");
    EXPECT_TRUE(words.isVisible());
    EXPECT_TRUE(words.text().startsWith(QStringLiteral(
        "Angles guessed: nothing tells yet which way these aims point, so the plan spreads")));
    for (const char* way : {"231 magnetic", "1 o'clock", "1 fist right", "2 fingers right"}) {
        EXPECT_TRUE(words.text().contains(QString::fromLatin1(way))) << way;
    }
    EXPECT_TRUE(open.desk().plan().accessibleDescription().contains(QStringLiteral("guessed")));
    // The aims that hang on A have their angle with it.
    open.typePage(
        {"swim the Point",
         "date 2025-04-12",
         "sticks 12 ft",
         "distances wraps",
         "depths ft",
         "aim A = 40 true",
         "aim B = A + 10 deg right",
         "A 28 9",
         "B 28 8"});
    EXPECT_FALSE(words.isVisible());
    EXPECT_FALSE(open.desk().plan().accessibleDescription().contains(QStringLiteral("guessed")));
}

TEST(AimsPanel, SaysThatACompassBearingWaitsForThePlaceOfTheSwim) {
    OpenWindow open;
    open.typePage(
        {"swim the Point",
         "date 2025-04-12",
         "sticks 12 ft",
         "distances wraps",
         "depths ft",
         "aim A = 231 magnetic",
         "A 28 9",
         "20 8"});
    trigger(open, "panelAims");
    auto& words = open.part<QLabel>("aimsGuessed");
    EXPECT_TRUE(words.text().contains(QStringLiteral("which way aim A points")))
        << words.text().toStdString();
    EXPECT_TRUE(words.text().contains(QStringLiteral("Place of the swim")));
}

TEST(AimsPanel, SpeaksInHisUnits) {
    Listed open;
    const auto first = [&](int column) {
        const QAbstractItemModel& model = *open.tree().model();
        return cell(model.index(0, 0, model.index(0, 0)), column);
    };
    // Source: by hand. 32 wraps of 12 ft are 384 ft, 128 yd, 117.0 m; 6 ft are 1.8 m.
    trigger(open, "distanceYards");
    EXPECT_EQ(first(1), "128 yd");
    trigger(open, "distanceFeet");
    EXPECT_EQ(first(1), "384 ft");
    trigger(open, "depthMetres");
    EXPECT_EQ(first(1), "384 ft") << "each on its own";
    EXPECT_EQ(first(2), "1.8 m");
}

TEST(AimsPanel, ChoosingARowShowsItOnPlanSideViewAndPage) {
    Listed open;
    EXPECT_EQ(open.window.focusWidget(), &open.tree()) << "the panel takes the keys";
    const QModelIndex b = open.tree().model()->index(1, 0);
    open.tree().setCurrentIndex(b);
    EXPECT_EQ(open.desk().chosenAim(), std::optional<std::size_t>(1));
    for (int i = 0; i < 3; ++i) {
        QTest::keyClick(&open.tree(), Qt::Key_Down);
    }
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(cell(open.tree().currentIndex(), 1), "30 wraps");
    EXPECT_EQ(open.desk().chosenAim(), std::optional<std::size_t>(1));
    ASSERT_TRUE(open.desk().chosenPlace().has_value());
    // Headers are 11 lines, aim A has 17; the third reading of B stands 3 further.
    EXPECT_EQ(open.editor().currentLine(), 11 + 17 + 2);
    EXPECT_EQ(open.desk().sideView().section()->aim.label, "B");
    EXPECT_EQ(open.window.focusWidget(), &open.tree()) << "and keeps them";
    QTest::keyClick(&open.tree(), Qt::Key_Return);
    EXPECT_EQ(open.window.focusWidget(), &open.editor());
}

TEST(AimsPanel, FollowsThePage) {
    Listed open;
    open.editor().goToLine(11 + 17 + 17 + 4);
    EXPECT_EQ(cell(open.tree().currentIndex(), 1), "28 wraps");
    EXPECT_EQ(open.tree().currentIndex().parent().row(), 2);
    trigger(open, "aimLeft");
    EXPECT_EQ(open.tree().currentIndex().row(), 1) << "the row of aim B";
}

TEST(AimsPanel, ComesBackAsItWasLeft) {
    Listed open;
    ASSERT_TRUE(open.window.closeBook());
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_FALSE(open.desk().panel(Desk::Panel::Aims).isHidden());
    EXPECT_TRUE(open.desk().panel(Desk::Panel::Shorthand).isHidden());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.tree().model()->rowCount(), 3);
}

struct Shorthand : OpenWindow {
    explicit Shorthand(const std::vector<std::string>& more) {
        std::vector<std::string> lines = headers;
        lines.insert(lines.end(), more.begin(), more.end());
        typePage(lines);
        editor().setFocus();
    }
    QTreeWidget& list() { return part<QTreeWidget>("shorthandList"); }
    std::string row(int number) {
        const QTreeWidgetItem* item = list().topLevelItem(number);
        return item == nullptr
                   ? std::string()
                   : (item->text(0) + QStringLiteral(": ") + item->text(1)).toStdString();
    }
    void choose(int number) { list().setCurrentItem(list().topLevelItem(number)); }
    std::size_t readings() { return records()->all<Reading>().size(); }
};

TEST(ShorthandPanel, AWordUnderTheCursorIsTaughtByKeysAlone) {
    Shorthand open({"A 28 9 gv"});
    EXPECT_EQ(open.readings(), 0U);
    open.editor().goToLine(11);
    QTest::keyClick(&open.window, Qt::Key_W, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(open.part<QLineEdit>("shorthandWord").text(), QStringLiteral("gv"));
    auto& meaning = open.part<QLineEdit>("shorthandMeaning");
    EXPECT_EQ(open.window.focusWidget(), &meaning);
    QTest::keyClicks(&meaning, QStringLiteral("gravel tap"));
    QTest::keyClick(&meaning, Qt::Key_Return);
    ASSERT_EQ(open.readings(), 1U);
    EXPECT_EQ(open.records()->all<Reading>().begin()->substrate, Substrate::Gravel);
    EXPECT_EQ(open.records()->all<Reading>().begin()->pull, Pull::Tap);
    EXPECT_EQ(open.row(0), "gv: gravel tap");
    EXPECT_TRUE(open.editor().notes()[11].question.isEmpty());
    trigger(open, "undo");
    EXPECT_EQ(open.readings(), 0U);
    EXPECT_EQ(open.list().topLevelItemCount(), 0);
}

TEST(ShorthandPanel, AnAnswerIsAskedOnceListedChangedAndForgotten) {
    Shorthand open({"A 28 11.6", "27 10.4"});
    open.editor().goToLine(11);
    EXPECT_FALSE(open.editor().notes()[11].question.isEmpty());
    EXPECT_FALSE(open.editor().notes()[12].question.isEmpty());
    trigger(open, "answer");
    EXPECT_EQ(open.readings(), 2U) << "asked once for the whole book";
    trigger(open, "panelShorthand");
    EXPECT_EQ(open.row(0), "11.6 in feet: 11 ft 6 in");
    open.choose(0);
    QTest::keyClick(&open.part<QPushButton>("shorthandChoice2"), Qt::Key_Space);
    QCoreApplication::processEvents();
    EXPECT_EQ(open.row(0), "11.6 in feet: tenths of a foot");
    EXPECT_DOUBLE_EQ(open.records()->all<Reading>().begin()->depth->value.number, 11.6);
    QTest::keyClick(&open.list(), Qt::Key_Delete);
    EXPECT_EQ(open.list().topLevelItemCount(), 0);
    EXPECT_EQ(open.readings(), 0U);
    EXPECT_FALSE(open.editor().notes()[11].question.isEmpty()) << "asked again";
    trigger(open, "undo");
    EXPECT_EQ(open.readings(), 2U);
}

TEST(ShorthandPanel, SaysWhyAWordCannotBeTaught) {
    Shorthand open({"A 28 9"});
    trigger(open, "panelShorthand");
    auto& word = open.part<QLineEdit>("shorthandWord");
    QTest::keyClicks(&word, QStringLiteral("gv"));
    QTest::keyClick(&word, Qt::Key_Return);
    auto& meaning = open.part<QLineEdit>("shorthandMeaning");
    QTest::keyClicks(&meaning, QStringLiteral("quux"));
    const Book before = *open.records();
    QTest::keyClick(&meaning, Qt::Key_Return);
    EXPECT_FALSE(open.part<QLabel>("shorthandWords").isHidden());
    EXPECT_TRUE(open.part<QLabel>("shorthandWords").text().contains(QStringLiteral("quux")));
    EXPECT_EQ(*open.records(), before);
    meaning.clear();
    QTest::keyClicks(&meaning, QStringLiteral("hard clay"));
    QTest::keyClick(&meaning, Qt::Key_Return);
    EXPECT_TRUE(open.part<QLabel>("shorthandWords").isHidden());
    EXPECT_EQ(open.row(0), "gv: hard clay");
}

TEST(ShorthandPanel, ABareDepthIsPullsOrFeetForItsVisit) {
    OpenWindow open;
    open.typePage(
        {"swim the Point",
         "date 2025-04-12",
         "sticks 12 ft",
         "distances wraps",
         "float pulls 12 in + 12 in",
         "A 28 9"});
    EXPECT_TRUE(open.records()->all<Reading>().empty());
    QTest::keyClick(&open.editor(), Qt::Key_2, Qt::AltModifier); // feet, pulls, metres
    ASSERT_EQ(open.records()->all<Reading>().size(), 1U);
    EXPECT_EQ(open.records()->all<Reading>().begin()->depth->value.unit, Unit::Pull);
    trigger(open, "panelShorthand");
    EXPECT_EQ(
        open.part<QTreeWidget>("shorthandList").topLevelItem(0)->text(0),
        QStringLiteral("bare depths, the Point, 12 April 2025"));
}

TEST(ListPanels, ComeUpWithAThirdOfTheColumn) {
    OpenWindow open;
    open.typePage(eveningPage());
    const int whole = open.part<QWidget>("leftColumn").height();
    for (const char* name : {"panelAims", "panelShorthand"}) {
        trigger(open, name);
    }
    for (const Desk::Panel panel : {Desk::Panel::Page, Desk::Panel::Aims, Desk::Panel::Shorthand}) {
        EXPECT_GE(open.desk().panel(panel).height(), whole / 3 - 2) << static_cast<int>(panel);
    }
}

TEST(ChosenPlace, GoesWithTheReadingWhoseLineIsMended) {
    OpenWindow open;
    std::vector<std::string> lines = headers;
    lines.insert(lines.end(), {"A 32 6'", "30 7", "28 8"});
    open.typePage(lines);
    const auto line = static_cast<int>(headers.size()) + 1;
    open.editor().goToLine(line);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    const auto before = open.desk().chosenPlace();
    ASSERT_TRUE(before.has_value());
    // The line becomes "29 7", and the cursor stays on it.
    open.editor().moveCursor(QTextCursor::StartOfLine);
    QTest::keyClick(&open.editor(), Qt::Key_Delete);
    QTest::keyClick(&open.editor(), Qt::Key_Delete);
    open.press("29");
    ASSERT_TRUE(open.desk().page().keep());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    const auto after = open.desk().chosenPlace();
    ASSERT_TRUE(after.has_value());
    // Source: by hand. One wrap of 12 ft less line, nearly flat: 3.66 m nearer, to a tenth.
    const Point tip = open.desk().aims().front().tip;
    const auto out = [&](const Point& at) {
        return std::hypot(at.east - tip.east, at.north - tip.north);
    };
    EXPECT_NEAR(out(*before) - out(*after), 12 * 0.3048, 0.1);
    // A place that he chose himself stays where he chose it.
    open.desk().choosePlace(*before);
    open.editor().moveCursor(QTextCursor::StartOfLine);
    QTest::keyClick(&open.editor(), Qt::Key_Delete);
    open.press("3");
    ASSERT_TRUE(open.desk().page().keep());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.desk().chosenPlace(), before);
}

} // namespace
} // namespace bedlore::testing
