// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/support/python.hpp"
#include "tests/support/run_tool.hpp"
#include "tests/support/without_rights.hpp"

#include <QAction>
#include <QLabel>
#include <gmock/gmock.h>

// Others use the book too: a second window, a GIS; or it may only be read.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string messageOf(MainWindow& window) {
    return window.findChild<MessageBar*>(QStringLiteral("messageBar"))->text().toStdString();
}
std::string footOf(MainWindow& window) {
    return window.findChild<QLabel*>(QStringLiteral("kept"))->text().toStdString();
}
void comeBackTo(MainWindow& window) {
    QEvent activated(QEvent::WindowActivate);
    QCoreApplication::sendEvent(&window, &activated);
}

std::vector<std::string> pageOfOne() {
    std::vector<std::string> lines = headers;
    lines.emplace_back("A 32 6'");
    return lines;
}

/// The book is whole and nothing in it is taken for damage.
void expectWhole(const fs::path& path) {
    auto stored = BookFile::open(path, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_EQ(stored->integrity(), "ok");
    EXPECT_THAT(stored->notices(), IsEmpty());
    const ToolRun checked = runTool(
        std::string(python) + " -W ignore -m osgeo_utils.samples.validate_gpkg '" + path.string() +
        "'");
    EXPECT_EQ(checked.status, 0) << checked.output;
    EXPECT_THAT(checked.output, IsEmpty());
}

struct TwoWindows : OpenWindow {
    MainWindow second{{.book = {}, .practice = {}, .settings = folder / "second.ini"}};

    TwoWindows() {
        typePage(pageOfOne());
        second.show();
        EXPECT_TRUE(second.openBook(book));
    }
};

TEST(SecondWindow, OnlyReadsAndSaysWhatToDo) {
    TwoWindows open;
    EXPECT_THAT(messageOf(open.second), HasSubstr("\"Harl Pit.gpkg\" is open in another window"));
    EXPECT_THAT(messageOf(open.second), HasSubstr("choose Open again in the Book menu"));
    EXPECT_EQ(footOf(open.second), "reading only");
    PageEditor& editor = open.second.desk()->page().editor();
    const QStringList lines = editor.lines();
    QTest::keyClicks(&editor, QStringLiteral("30 7"));
    EXPECT_EQ(editor.lines(), lines);
    EXPECT_FALSE(open.second.action(QStringLiteral("newPage"))->isEnabled());
    EXPECT_FALSE(open.second.action(QStringLiteral("import"))->isEnabled());
    EXPECT_TRUE(open.second.action(QStringLiteral("openAgain"))->isEnabled());
}

TEST(SecondWindow, ShowsWhatTheFirstWroteWhenHeComesBackToIt) {
    TwoWindows open;
    open.type("30 7");
    EXPECT_EQ(open.second.desk()->document().book()->all<Reading>().size(), 1U);
    comeBackTo(open.second);
    EXPECT_EQ(*open.second.desk()->document().book(), *open.records());
    EXPECT_TRUE(open.second.desk()->page().editor().lines().contains(QStringLiteral("30 7")));
    EXPECT_THAT(messageOf(open.second), HasSubstr("Another program changed this book"));
}

TEST(SecondWindow, WritesOnceTheFirstIsClosed) {
    TwoWindows open;
    QAction* again = open.second.action(QStringLiteral("openAgain"));
    again->trigger();
    EXPECT_EQ(footOf(open.second), "reading only") << "the first has it still";
    EXPECT_THAT(messageOf(open.second), HasSubstr("is open in another window"));
    open.type("30 7");
    const Book before = *open.records();
    ASSERT_TRUE(open.window.closeBook());
    again->trigger();
    EXPECT_THAT(messageOf(open.second), HasSubstr("can be written in now"));
    Desk& desk = *open.second.desk();
    EXPECT_EQ(*desk.document().book(), before);
    EXPECT_TRUE(desk.page().editor().lines().contains(QStringLiteral("30 7"))) << "the same page";
    QTest::keyClicks(&desk.page().editor(), QStringLiteral("28 8"));
    QTest::keyClick(&desk.page().editor(), Qt::Key_Return);
    EXPECT_EQ(desk.document().book()->all<Reading>().size(), 3U);
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(footOf(open.window), "reading only") << "now the first is the second";
}

TEST(SecondWindow, OpenAgainKeepsWhatIsTyped) {
    OpenWindow open;
    open.typePage(pageOfOne());
    open.press("30 7");
    open.window.openAgain();
    EXPECT_EQ(open.records()->all<Reading>().size(), 2U);
    EXPECT_TRUE(open.editor().lines().contains(QStringLiteral("30 7")));
    EXPECT_TRUE(open.desk().document().isWritable());
}

struct GisWindow : OpenWindow {
    GisWindow() {
        std::vector<std::string> lines = pageOfOne();
        lines.emplace_back("28 7'");
        typePage(lines);
        EXPECT_TRUE(desk().builder().writeDerived().has_value());
    }
    /// As a GIS would, through the library that most of them use.
    void gis(const std::string& sql) {
        const ToolRun ran = runTool("ogrinfo -q '" + book.string() + "' -sql \"" + sql + "\"");
        EXPECT_EQ(ran.status, 0) << ran.output;
        EXPECT_THAT(ran.output, ::testing::Not(HasSubstr("ERROR"))) << sql;
    }
    std::string inFile(const std::string& sql) {
        return runTool("sqlite3 '" + book.string() + "' \"" + sql + "\"").output;
    }
};

TEST(GisBeside, ChangedRowIsShownWhenHeComesBack) {
    GisWindow open;
    open.gis("UPDATE waters SET name = 'Their Pit'");
    EXPECT_EQ(open.inFile("SELECT name FROM waters"), "Their Pit\n");
    comeBackTo(open.window);
    EXPECT_EQ(open.records()->all<Water>().begin()->name, "Their Pit");
    EXPECT_THAT(messageOf(open.window), HasSubstr("Another program changed this book"));
    EXPECT_FALSE(open.window.action(QStringLiteral("undo"))->isEnabled());
    open.type("26 8");
    EXPECT_THAT(messageOf(open.window), HasSubstr("Another program changed this book"))
        << "it passed before he could read it";
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
    EXPECT_EQ(open.records()->all<Water>().begin()->name, "Their Pit");
    ASSERT_TRUE(open.window.closeBook());
    expectWhole(open.book);
}

TEST(GisBeside, ChangedRowAndWhatIsTypedAreBothKept) {
    GisWindow open;
    open.press("26 8");
    open.gis("UPDATE waters SET name = 'Their Pit'");
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    EXPECT_EQ(footOf(open.window), "kept ✓");
    EXPECT_EQ(open.records()->all<Water>().begin()->name, "Their Pit");
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
    EXPECT_THAT(messageOf(open.window), HasSubstr("Another program changed this book"));
    open.window.undo();
    EXPECT_EQ(open.records()->all<Reading>().size(), 2U);
    EXPECT_EQ(open.records()->all<Water>().begin()->name, "Their Pit");
}

TEST(GisBeside, LineOfThePageThatItChangedStandsBesideWhatIsTyped) {
    GisWindow open;
    open.press("26 8");
    open.gis("UPDATE page_lines SET text = 'level 0.40 m' WHERE text = 'level 0.35 m'");
    comeBackTo(open.window);
    const QStringList lines = open.editor().lines();
    EXPECT_TRUE(lines.contains(QStringLiteral("level 0.40 m")));
    EXPECT_TRUE(lines.contains(QStringLiteral("26 8")));
    EXPECT_NE(storedText(*open.records()).find("level 0.40 m\n"), std::string::npos);
    EXPECT_NE(storedText(*open.records()).find("26 8"), std::string::npos);
    ASSERT_TRUE(open.window.closeBook());
    expectWhole(open.book);
}

TEST(GisBeside, TablesForItAreMadeFromWhatItChanged) {
    GisWindow open;
    open.gis("UPDATE swim_records SET name = 'Their Point'");
    EXPECT_TRUE(open.desk().builder().writeDerived().has_value());
    EXPECT_EQ(open.records()->all<Swim>().begin()->name, "Their Point");
    ASSERT_TRUE(open.window.closeBook());
    expectWhole(open.book);
}

TEST(GisBeside, SpatialIndexIsNoMatterAndIsKeptUpToDate) {
    GisWindow open;
    open.gis("SELECT CreateSpatialIndex('soundings', 'geom')");
    EXPECT_EQ(open.inFile("SELECT count(*) FROM rtree_soundings_geom"), "2\n");
    comeBackTo(open.window);
    EXPECT_EQ(messageOf(open.window), "") << "no record was changed";
    open.type("26 8");
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
    EXPECT_EQ(messageOf(open.window), "");
    ASSERT_TRUE(open.window.closeBook());
    EXPECT_EQ(open.inFile("SELECT count(*) FROM rtree_soundings_geom"), "3\n");
    expectWhole(open.book);
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(messageOf(open.window), "");
}

struct Forbidden {
    const char* name;
    fs::perms folder;
    fs::perms file;
};

class ReadOnlyBook : public ::testing::TestWithParam<Forbidden> {};

TEST_P(ReadOnlyBook, IsShownAndSaidAndCanBeWrittenInLater) {
    OpenWindow open;
    open.typePage(pageOfOne());
    ASSERT_TRUE(open.window.closeBook());
    const Rights rights(open.book, GetParam().folder, GetParam().file);
    {
        const WithoutRights nobody;
        ASSERT_TRUE(open.window.openBook(open.book));
        EXPECT_THAT(
            messageOf(open.window),
            HasSubstr("\"Harl Pit.gpkg\" or its folder is read-only, so nothing can be changed"));
        EXPECT_THAT(messageOf(open.window), HasSubstr("Save a copy elsewhere"));
        EXPECT_THAT(messageOf(open.window), HasSubstr("choose Open again in the Book menu"));
        EXPECT_EQ(footOf(open.window), "reading only");
        EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
        open.type("30 7");
        EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
        EXPECT_FALSE(open.window.action(QStringLiteral("undo"))->isEnabled());
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        EXPECT_NE(open.desk().builder().map(), nullptr) << "its map is shown all the same";
    }
    rights.giveBack();
    open.window.openAgain();
    EXPECT_THAT(messageOf(open.window), HasSubstr("can be written in now"));
    open.editor().goToLine(static_cast<int>(headers.size()) + 1);
    open.type("30 7");
    EXPECT_EQ(open.records()->all<Reading>().size(), 2U);
    EXPECT_TRUE(open.window.closeBook());
}

INSTANTIATE_TEST_SUITE_P(
    Rights,
    ReadOnlyBook,
    ::testing::Values(
        Forbidden{"Folder", mayEnter, mayDoAll},
        Forbidden{"File", mayDoAll, mayRead},
        Forbidden{"Both", mayEnter, mayRead}),
    [](const ::testing::TestParamInfo<Forbidden>& way) { return way.param.name; });

TEST(ReadOnlyFolder, TakesNoNewBookAndNoCopy) {
    OpenWindow open;
    open.typePage(pageOfOne());
    const Rights rights(open.book, mayEnter, mayRead);
    const WithoutRights nobody;
    open.window.saveCopy(open.folder / "copy.gpkg");
    EXPECT_THAT(messageOf(open.window), HasSubstr("\"copy.gpkg\" could not be made"));
    EXPECT_FALSE(open.window.newBook(open.folder / "new.gpkg"));
    EXPECT_THAT(messageOf(open.window), HasSubstr("\"new.gpkg\" cannot be made there"));
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U) << "the book on the desk stays there";
}

TEST(ReadOnlyFolder, ThatBecomesSoUnderTheOpenBookIsSaidAndTriedAgain) {
    OpenWindow open;
    open.typePage(pageOfOne());
    const Rights rights(open.book, mayEnter, mayDoAll);
    {
        const WithoutRights nobody;
        open.type("30 7");
        EXPECT_THAT(messageOf(open.window), HasSubstr("\"Harl Pit.gpkg\""));
        EXPECT_THAT(messageOf(open.window), HasSubstr("What you typed stays here"));
        EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
        EXPECT_FALSE(open.window.close());
    }
    rights.giveBack();
    open.type("28 8");
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
}

} // namespace
} // namespace bedlore::testing
