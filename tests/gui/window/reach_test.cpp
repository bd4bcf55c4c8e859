// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/import_dialog.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/gui/window/passing_dialogs.hpp"
#include "tests/gui/window/reach.hpp"

#include <QAction>
#include <QDialog>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QTreeView>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <map>

// The window for hands and ears: Tab leads everywhere in the order of the eye, and everything that
// takes keys has a name.

namespace bedlore::testing {
namespace {

struct FullDesk : OpenWindow {
    FullDesk() {
        std::vector<std::string> lines = eveningPage();
        lines.emplace_back("110 12"); // asks something: its answers are buttons
        typePage(lines);
        for (const char* panel : {"panelAims", "panelShorthand"}) {
            window.action(QString::fromLatin1(panel))->trigger();
        }
        editor().setFocus();
        editor().goToNextQuestion();
    }
};

TEST(Reach, AWidgetWithoutANameOrOutOfReachIsFound) {
    QWidget top;
    auto* column = new QVBoxLayout(&top);
    auto* named = new QPushButton(QStringLiteral("named"));
    auto* nameless = new QPushButton;
    column->addWidget(named);
    column->addWidget(nameless);
    top.show();
    EXPECT_EQ(focusable(top).size(), 2U);
    EXPECT_TRUE(accessibleName(*nameless).isEmpty());
    EXPECT_EQ(tabRound(top, *named).size(), 2U);
}

TEST(Reach, EverythingOnTheDeskHasANameAndIsReachedByTab) {
    FullDesk open;
    EXPECT_GE(focusable(open.window).size(), 14U)
        << "header 6, page, answers, aims, shorthand 4, plan, side view, place";
    expectReachable(open.window, open.editor());
}

TEST(Reach, TheStartScreenToo) {
    const TempFolder folder;
    const std::filesystem::path practice = folder / "practice.gpkg";
    newBook(practice).reset();
    MainWindow window({.book = {}, .practice = practice, .settings = folder / "settings.ini"});
    window.settings().keepLastBook(QString::fromStdString(practice.string()));
    ASSERT_TRUE(window.openBook(practice));
    ASSERT_TRUE(window.closeBook());
    window.show();
    auto* first = window.findChild<QPushButton*>(QStringLiteral("startNew"));
    ASSERT_NE(first, nullptr);
    EXPECT_EQ(focusable(window).size(), 4U) << "new, open, practice, the last book";
    expectReachable(window, *first);
}

TEST(Reach, AVisitFromAFileToo) {
    OpenWindow open;
    open.typePage(headers);
    auto& visit = open.part<QWidget>("visitPanel");
    EXPECT_FALSE(accessibleName(*visit.focusProxy()).isEmpty());
}

TEST(Reach, EveryDialogToo) {
    OpenWindow open;
    open.typePage(eveningPage());
    const auto walk = [](QWidget& dialog) {
        const auto all = focusable(dialog);
        ASSERT_FALSE(all.empty()) << naming(dialog);
        // In a page of the help Tab leads from link to link first: the round begins before it.
        auto* find = dialog.findChild<QWidget*>(QStringLiteral("helpFind"));
        expectReachable(dialog, find != nullptr ? *find : **all.begin());
    };
    ExportDialog files(
        open.desk().builder().map(),
        {.folder = QString::fromStdString(open.folder.path().string()),
         .name = QStringLiteral("Harl Pit"),
         .units = {}});
    files.show();
    walk(files);
    for (const char* action :
         {"print", "keys", "help", "swimPlace", "levelMark", "privateThings"}) {
        open.window.action(QString::fromLatin1(action))->trigger();
    }
    int opened = 0;
    for (QDialog* dialog : open.window.findChildren<QDialog*>()) {
        ++opened;
        walk(*dialog);
    }
    EXPECT_EQ(opened, 6) << "sheet, list of keys, help, swim, level, what is private";
    ImportDialog import(
        {.files = {QStringLiteral("page.txt")}, .water = QStringLiteral("Harl Pit")});
    import.show();
    import.showFailure(QStringLiteral("The file cannot be read."));
    walk(import);
    PassingDialogs passing;
    for (QDialog* dialog : passing.all()) {
        walk(*dialog);
    }
}

TEST(Reach, TabGoesFromThePageToThePlanToTheChosenPlace) {
    FullDesk open;
    const std::vector<QWidget*> round = tabRound(open.window, open.editor());
    const auto at = [&](const char* name) {
        const auto found = std::find_if(round.begin(), round.end(), [&](const QWidget* widget) {
            return widget->objectName() == QLatin1String(name);
        });
        EXPECT_NE(found, round.end()) << name;
        return found - round.begin();
    };
    const char* inOrder[] = {
        "pageEditor",
        "answer1",
        "aimsTree",
        "shorthandWord",
        "shorthandMeaning",
        "shorthandTeach",
        "planView",
        "sectionView",
        "placeScroll"};
    for (std::size_t i = 1; i < std::size(inOrder); ++i) {
        EXPECT_LT(at(inOrder[i - 1]), at(inOrder[i])) << inOrder[i - 1] << ", " << inOrder[i];
    }
}

TEST(Reach, NoTwoActionsShareAKey) {
    OpenWindow open;
    std::map<QString, QString> owners;
    for (const QAction* action : open.window.findChildren<QAction*>()) {
        for (const QKeySequence& key : action->shortcuts()) {
            const auto [other, isNew] = owners.emplace(key.toString(), action->objectName());
            EXPECT_TRUE(isNew) << key.toString().toStdString() << ": "
                               << action->objectName().toStdString() << " and "
                               << other->second.toStdString();
        }
    }
    EXPECT_GE(owners.size(), 40U);
    // What he does over and over has a key of its own, and does not only stand in a menu.
    for (const char* name :
         {"undo",          "redo",         "answer",         "nextQuestion",  "teachWord",
          "lineUp",        "lineDown",     "lineTwice",      "lineOut",       "lineBelow",
          "lineAbove",     "aimLeft",      "aimRight",       "goPage",        "goPlan",
          "goSideView",    "goPlace",      "panelAims",      "zoomIn",        "zoomOut",
          "showAll",       "textLarger",   "textSmaller",    "layerCasts",    "layerMarks",
          "layerRings",    "layerFixes",   "layerSpots",     "layerReadings", "layerDepths",
          "layerContours", "layerShading", "panelShorthand", "newPage"}) {
        const QAction* action = open.window.action(QString::fromLatin1(name));
        ASSERT_NE(action, nullptr) << name;
        EXPECT_FALSE(action->shortcut().isEmpty()) << name;
    }
}

TEST(Reach, PlanSideViewAndPageSayWhatIsChosen) {
    FullDesk open;
    open.editor().goToLine(11); // "A 32 6'"
    open.editor().goToLine(12);
    EXPECT_TRUE(open.editor().accessibleDescription().contains(QStringLiteral("31 wraps")))
        << open.editor().accessibleDescription().toStdString();
    const QString chosen = open.desk().plan().accessibleDescription();
    EXPECT_TRUE(chosen.startsWith(QStringLiteral("Chosen: "))) << chosen.toStdString();
    EXPECT_TRUE(chosen.contains(QStringLiteral("Aim A chosen, of A, B, C from left to right")));
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    const QString side = open.desk().sideView().accessibleDescription();
    EXPECT_TRUE(side.contains(QStringLiteral("17 readings from far to near; 32 wraps, 6 ft; ")))
        << side.toStdString();
    open.window.action(QStringLiteral("aimRight"))->trigger();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_NE(open.desk().plan().accessibleDescription(), chosen);
    EXPECT_NE(open.desk().sideView().accessibleDescription(), side);
    open.editor().goToNextQuestion();
    EXPECT_TRUE(open.editor().accessibleDescription().contains(QStringLiteral("F2 yards?")))
        << open.editor().accessibleDescription().toStdString();
}

} // namespace
} // namespace bedlore::testing
