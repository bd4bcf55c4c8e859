// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>

#include <filesystem>
#include <fstream>

// What leaves is said before it leaves, and the offered names tell nothing.

namespace bedlore::testing {
namespace {

struct ShownDialog {
    OpenWindow open;
    std::unique_ptr<ExportDialog> dialog;

    ShownDialog() {
        std::vector<std::string> lines = eveningPage();
        lines.emplace_back("PINE = A 26¾ / rods 26¾");
        open.typePage(lines);
        dialog = std::make_unique<ExportDialog>(
            open.desk().builder().map(),
            ExportDialog::Start{
                .folder = QString::fromStdString(open.folder.path().string()),
                .name = open.desk().document().name(),
                .units = {}});
        dialog->show();
    }
    template <class Part>
    Part& part(const char* name) {
        auto* found = dialog->findChild<Part*>(QString::fromLatin1(name));
        EXPECT_NE(found, nullptr) << name;
        return *found;
    }
    void press(QAbstractButton& button) { QTest::keyClick(&button, Qt::Key_Space); }
    std::string holds() { return part<QLabel>("exportHoldings").text().toStdString(); }
    std::string path() { return part<QLineEdit>("exportPath").text().toStdString(); }
};

TEST(ExportDialog, OffersANameThatTellsNothingUntilEverythingLeaves) {
    ShownDialog shown;
    EXPECT_EQ(shown.path(), (shown.open.folder / "map").string());
    shown.press(shown.part<QRadioButton>("tier_all"));
    EXPECT_EQ(shown.path(), (shown.open.folder / "Harl Pit map").string());
    shown.press(shown.part<QRadioButton>("tier_depth"));
    EXPECT_EQ(shown.path(), (shown.open.folder / "map").string());
}

TEST(ExportDialog, LeavesANameOfHisOwnAlone) {
    ShownDialog shown;
    auto& path = shown.part<QLineEdit>("exportPath");
    path.selectAll();
    QTest::keyClicks(&path, QStringLiteral("mine"));
    shown.press(shown.part<QRadioButton>("tier_all"));
    EXPECT_EQ(shown.path(), "mine");
}

TEST(ExportDialog, SaysSpotsOnlyOfFilesThatHoldThem) {
    ShownDialog shown;
    EXPECT_EQ(shown.holds().find("1 spot"), std::string::npos) << "depths only";
    shown.press(shown.part<QRadioButton>("tier_all"));
    EXPECT_NE(shown.holds().find("1 spot with its name"), std::string::npos) << shown.holds();
    shown.press(shown.part<QCheckBox>("exportGeotiff"));
    shown.press(shown.part<QCheckBox>("exportPdf"));
    EXPECT_EQ(shown.holds(), "GeoTIFF: depths, and how sure each is") << "a GeoTIFF holds no more";
    shown.press(shown.part<QCheckBox>("exportGeojson"));
    EXPECT_NE(shown.holds().find("1 spot with its name"), std::string::npos) << shown.holds();
    EXPECT_NE(shown.holds().find("\nGeoJSON: "), std::string::npos) << "each file by itself";
    EXPECT_EQ(shown.holds().find("mark"), std::string::npos) << "a GeoJSON holds no marks";
}

TEST(ExportDialog, SaysTheDayOfPrintingOfASheetAlone) {
    ShownDialog shown;
    shown.press(shown.part<QCheckBox>("exportGeojson"));
    ASSERT_TRUE(shown.dialog->formats().pdf && shown.dialog->formats().geojson);
    const auto lineOf = [&](const std::string& kind) {
        const std::string text = "\n" + shown.holds() + "\n";
        const std::size_t at = text.find("\n" + kind + ": ");
        return at == std::string::npos ? "" : text.substr(at + 1, text.find('\n', at + 1) - at - 1);
    };
    EXPECT_EQ(
        lineOf("PDF"),
        "PDF: depths inside one smooth outline, the day of printing, no casts, readings, swims, "
        "spots, names or other dates");
    EXPECT_EQ(
        lineOf("GeoJSON"),
        "GeoJSON: depths inside one smooth outline, no casts, readings, swims, spots, names or "
        "dates");
    shown.press(shown.part<QRadioButton>("tier_all"));
    EXPECT_NE(lineOf("PDF").find("the day of printing"), std::string::npos) << shown.holds();
    EXPECT_EQ(lineOf("GeoJSON").find("printing"), std::string::npos) << shown.holds();
}

TEST(ExportDialog, SaysAtEverythingWhetherPrivateThingsAreIn) {
    ShownDialog shown;
    EXPECT_EQ(shown.holds().find("private"), std::string::npos) << "they never are in depths alone";
    shown.press(shown.part<QRadioButton>("tier_all"));
    EXPECT_NE(shown.holds().find("private spots and marks are left out"), std::string::npos)
        << shown.holds();
    shown.press(shown.part<QCheckBox>("exportPrivate"));
    EXPECT_NE(shown.holds().find("private spots and marks too"), std::string::npos)
        << shown.holds();
    EXPECT_EQ(shown.holds().find("left out"), std::string::npos) << shown.holds();
}

TEST(ExportDialog, TablesNeedAFolderThatIsNewOrEmpty) {
    ShownDialog shown;
    shown.press(shown.part<QCheckBox>("exportTables"));
    EXPECT_EQ(shown.dialog->files().tables, shown.open.folder / "map tables");
    auto& write = shown.part<QPushButton>("exportWrite");
    EXPECT_TRUE(write.isEnabled());
    EXPECT_NE(shown.holds().find("\nTables: depths inside one smooth outline"), std::string::npos);
    std::filesystem::create_directory(shown.open.folder / "map tables");
    std::ofstream(shown.open.folder / "map tables" / "mine.txt") << "mine";
    shown.press(shown.part<QRadioButton>("tier_bottom")); // looks again
    EXPECT_FALSE(write.isEnabled());
    const std::string names = shown.part<QLabel>("exportNames").text().toStdString();
    EXPECT_NE(names.find("is not empty"), std::string::npos) << names;
}

TEST(ExportDialog, SaysWhatTheMapLacksForAFileBeforeAnythingIsWritten) {
    ShownDialog shown; // of a water without latitude and longitude
    auto& write = shown.part<QPushButton>("exportWrite");
    const auto said = [&] { return shown.part<QLabel>("exportNames").text(); };
    EXPECT_TRUE(write.isEnabled());
    shown.press(shown.part<QCheckBox>("exportGeojson"));
    EXPECT_TRUE(said().contains(QLatin1String("no latitude and longitude, which GeoJSON needs")));
    EXPECT_FALSE(write.isEnabled());
    shown.press(shown.part<QCheckBox>("exportGeojson"));
    EXPECT_FALSE(said().contains(QLatin1String("latitude")));
    EXPECT_TRUE(write.isEnabled()) << "the sheet alone can be made";
}

TEST(ExportDialog, SaysSpotsOfTablesToo) {
    ShownDialog shown;
    shown.press(shown.part<QRadioButton>("tier_all"));
    shown.press(shown.part<QCheckBox>("exportPdf"));
    shown.press(shown.part<QCheckBox>("exportTables"));
    EXPECT_NE(shown.holds().find("1 spot with its name"), std::string::npos) << shown.holds();
    EXPECT_EQ(shown.dialog->formats(), (MapFormats{.tables = true}));
}

} // namespace
} // namespace bedlore::testing
