// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>

#include <utility>

// What the window remembers until the next evening, and what it must not.

namespace bedlore::testing {
namespace {

TEST(Settings, KeepWhatWasChosenForFiles) {
    const TempFolder folder;
    const QString path = QString::fromStdString((folder / "settings.ini").string());
    const ExportChoices choices{
        .pdf = false,
        .geotiff = true,
        .geojson = true,
        .tables = true,
        .paper = SheetPaper::A6,
        .fill = DepthFill::Plain};
    EXPECT_EQ(Settings(path).exportChoices(), ExportChoices{}) << "nothing was chosen yet";
    Settings(path).keep(choices);
    Settings(path).keepFolder(QStringLiteral("import"), QStringLiteral("/somewhere"));
    EXPECT_EQ(Settings(path).exportChoices(), choices);
    EXPECT_EQ(Settings(path).folder(QStringLiteral("import")), QStringLiteral("/somewhere"));
    EXPECT_EQ(Settings(path).folder(QStringLiteral("export")), QString());
}

TEST(Settings, KeepTheLatestBooksOnceEach) {
    const TempFolder folder;
    Settings settings(QString::fromStdString((folder / "settings.ini").string()));
    for (int i = 0; i < 12; ++i) {
        settings.keepLastBook(QStringLiteral("/b%1.gpkg").arg(i));
    }
    settings.keepLastBook(QStringLiteral("/b7.gpkg"));
    EXPECT_EQ(settings.lastBooks().size(), 9);
    EXPECT_EQ(settings.lastBooks().front(), QStringLiteral("/b7.gpkg"));
    EXPECT_EQ(settings.lastBooks().count(QStringLiteral("/b7.gpkg")), 1);
    settings.forgetBook(QStringLiteral("/b7.gpkg"));
    EXPECT_FALSE(settings.lastBooks().contains(QStringLiteral("/b7.gpkg")));
}

TEST(Settings, KeepTheWatersOfTheLatestBooksAlone) {
    const TempFolder folder;
    const QString path = QString::fromStdString((folder / "settings.ini").string());
    const QString first = QStringLiteral("/a/b 1=ü.gpkg");
    {
        Settings settings(path);
        settings.keepWatersOf(first, QStringLiteral("Harl Pit"));
        EXPECT_EQ(settings.watersOf(first), QString()) << "not a book of the last ones";
        settings.keepLastBook(first);
        settings.keepWatersOf(first, QStringLiteral("Harl Pit, & more"));
    }
    Settings settings(path);
    EXPECT_EQ(settings.watersOf(first), QStringLiteral("Harl Pit, & more"));
    EXPECT_EQ(settings.watersOf(QStringLiteral("/a/b")), QString());
    for (int i = 0; i < 9; ++i) {
        settings.keepLastBook(QStringLiteral("/b%1.gpkg").arg(i));
        settings.keepWatersOf(QStringLiteral("/b%1.gpkg").arg(i), QStringLiteral("Low Mere"));
    }
    EXPECT_EQ(settings.watersOf(first), QString()) << "off the list, and so is its water";
    settings.forgetBook(QStringLiteral("/b8.gpkg"));
    EXPECT_EQ(settings.watersOf(QStringLiteral("/b8.gpkg")), QString());
    EXPECT_EQ(settings.watersOf(QStringLiteral("/b7.gpkg")), QStringLiteral("Low Mere"));
}

TEST(Settings, BringBackColoursTextUnitsAndPanels) {
    const TempFolder folder;
    const WindowOptions options{.book = {}, .practice = {}, .settings = folder / "settings.ini"};
    {
        MainWindow window(options);
        window.show();
        ASSERT_TRUE(window.newBook(folder / "Harl Pit.gpkg"));
        for (const char* name : {"paletteNight", "textLarger", "depthMetres", "panelSideView"}) {
            window.action(QString::fromLatin1(name))->trigger();
        }
        window.close();
    }
    MainWindow window(options);
    window.show();
    EXPECT_EQ(window.preferences().palette, PaletteKind::Night);
    EXPECT_DOUBLE_EQ(window.preferences().textScale, 1.25);
    EXPECT_EQ(window.preferences().units.depth, Unit::Metre);
    ASSERT_TRUE(window.openBook(folder / "Harl Pit.gpkg"));
    EXPECT_TRUE(window.desk()->panel(Desk::Panel::SideView).isHidden());
    EXPECT_FALSE(window.desk()->panel(Desk::Panel::Page).isHidden());
    window.choosePalette(PaletteKind::Light); // the other tests' colours
}

TEST(Settings, BringBackWhichWayIsUp) {
    const TempFolder folder;
    const WindowOptions options{.book = {}, .practice = {}, .settings = folder / "settings.ini"};
    const auto typePage = [](MainWindow& window) {
        PageEditor& editor = window.desk()->page().editor();
        editor.selectAll();
        pressKeys(editor, QString::fromStdString(whole(eveningPage())));
        EXPECT_TRUE(waitUntilIdle(window.desk()->jobs()));
    };
    for (const auto& [chosen, northUp] :
         {std::pair("northUp", true), std::pair("fromBank", false)}) {
        {
            MainWindow window(options);
            window.show();
            ASSERT_TRUE(window.newBook(folder / (std::string(chosen) + ".gpkg")));
            typePage(window);
            EXPECT_EQ(window.desk()->plan().isNorthUp(), !northUp) << "as it was left";
            window.action(QString::fromLatin1(chosen))->trigger();
            EXPECT_EQ(window.desk()->plan().isNorthUp(), northUp);
            window.close();
        }
        MainWindow window(options);
        window.show();
        ASSERT_TRUE(window.openBook(folder / (std::string(chosen) + ".gpkg")));
        EXPECT_TRUE(waitUntilIdle(window.desk()->jobs()));
        EXPECT_EQ(window.desk()->plan().isNorthUp(), northUp);
        EXPECT_EQ(window.action(QStringLiteral("northUp"))->isChecked(), northUp);
        // The map itself, not only the tick: North is where the plan's upper edge is.
        EXPECT_EQ(window.desk()->plan().camera().up == PlaneBearing{}, northUp);
    }
}

TEST(Settings, BringBackWhereTheWindowStoodAndHowLargeItWas) {
    const TempFolder folder;
    const WindowOptions options{.book = {}, .practice = {}, .settings = folder / "settings.ini"};
    QRect left;
    {
        MainWindow window(options);
        EXPECT_EQ(window.size(), QSize(1280, 720)) << "nothing is kept yet";
        window.show();
        // Inside the 800 x 800 of the screen without a display: no window is put back beyond one.
        window.setGeometry(40, 60, 700, 500);
        QCoreApplication::processEvents();
        left = window.geometry();
        window.close();
    }
    MainWindow window(options);
    window.show();
    QCoreApplication::processEvents();
    EXPECT_EQ(window.geometry(), left);
    EXPECT_NE(window.size(), QSize(1280, 720));
}

} // namespace
} // namespace bedlore::testing
