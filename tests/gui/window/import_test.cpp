// SPDX-License-Identifier: MIT
#include "gui/dialogs/import_dialog.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QCheckBox>
#include <QLabel>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableView>
#include <QToolButton>

#include <fstream>

// Files are looked at first: nothing is in the book before he says so.

namespace bedlore::testing {
namespace {

class Import : public ::testing::Test {
protected:
    OpenWindow open_;

    std::filesystem::path write(const std::string& name, const std::string& text) {
        std::filesystem::path path = open_.folder / name;
        std::ofstream(path) << text;
        return path;
    }
    /// The dialog with the files read.
    ImportDialog& look(const std::vector<std::filesystem::path>& files) {
        open_.window.importFiles(files);
        EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
        return open_.part<ImportDialog>("importDialog");
    }
    template <class Part>
    Part& part(const char* name) {
        return open_.part<Part>(name);
    }
    QString cell(const char* table, int row, int column) {
        const QAbstractItemModel* model = part<QTableView>(table).model();
        return model->index(row, column).data().toString();
    }
    /// What the last line of the window says.
    QString message() { return part<QLabel>("message").text(); }
    void press(const char* button) {
        QTest::keyClick(&part<QPushButton>(button), Qt::Key_Space);
        EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    }
    [[nodiscard]] bool bookIsEmpty() { return *open_.records() == Book(); }
};

const std::string readingsTable =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n"
    "A,2025-04-12,1,231.5,true,60,m,3,m,gravel,\n"
    "A,2025-04-12,1,231.5,true,far,m,3,m,gravel,\n"
    "A,2025-04-12,1,231.5,true,55,m,2.8,m,<b>silt</b>,\n";

TEST_F(Import, ShowsEachLineOfAPageAndWritesNothingBefore) {
    ImportDialog& dialog = look({write("page.txt", whole(eveningPage()))});
    EXPECT_TRUE(bookIsEmpty());
    const auto& model = *part<QTableView>("importRows").model();
    EXPECT_EQ(model.rowCount(), static_cast<int>(eveningPage().size()));
    EXPECT_EQ(cell("importRows", 0, 1), QStringLiteral("swim the Point"));
    EXPECT_EQ(cell("importRows", 11, 1), QStringLiteral("A 32 6'"));
    // Source: by hand. 32 × 12 ft = 384 ft = 128 yd.
    EXPECT_EQ(cell("importRows", 11, 2), QStringLiteral("32 wraps (128 yd), 6 ft"));
    EXPECT_EQ(
        part<QLabel>("importSummary").text(),
        QStringLiteral("To be taken in: 1 swim, 3 casts, 51 readings."));
    EXPECT_TRUE(bookIsEmpty());
    QTest::keyClick(&dialog, Qt::Key_Return);
    EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_EQ(open_.records()->all<Reading>().size(), 51U);
    EXPECT_EQ(message(), QStringLiteral("Taken in: 1 swim, 3 casts, 51 readings."));
    open_.window.undo();
    EXPECT_TRUE(open_.records()->all<Reading>().empty()) << "one act";
}

TEST_F(Import, TakesNothingInAfterEscape) {
    ImportDialog& dialog = look({write("page.txt", whole(eveningPage()))});
    QTest::keyClick(&dialog, Qt::Key_Escape);
    EXPECT_TRUE(bookIsEmpty());
}

TEST_F(Import, NamesEveryBadRowAndLeavesThemOutOnlyWhenAsked) {
    ImportDialog& dialog = look({write("readings.csv", readingsTable)});
    const auto& bad = *part<QTableView>("badRows").model();
    ASSERT_EQ(bad.rowCount(), 2);
    EXPECT_EQ(cell("badRows", 0, 0), QStringLiteral("readings.csv"));
    EXPECT_EQ(cell("badRows", 0, 1), QStringLiteral("3"));
    EXPECT_EQ(cell("badRows", 0, 2), QStringLiteral("distance"));
    EXPECT_EQ(cell("badRows", 0, 3), QStringLiteral("far"));
    EXPECT_FALSE(cell("badRows", 0, 4).isEmpty());
    EXPECT_EQ(cell("badRows", 1, 3), QStringLiteral("<b>silt</b>")) << "as it stands, no markup";
    EXPECT_EQ(
        bad.index(1, 3).data(Qt::ToolTipRole).toString(),
        QStringLiteral("<p>&lt;b&gt;silt&lt;/b&gt;</p>"))
        << "nor in the tool tip";
    auto& whole = part<QLabel>("badWholeRow");
    EXPECT_TRUE(whole.isHidden()) << "no row is chosen";
    part<QTableView>("badRows").setCurrentIndex(bad.index(0, 0));
    EXPECT_EQ(
        whole.text(),
        QStringLiteral("file: readings.csv; line: 3; field: distance; found: far; expected: ") +
            cell("badRows", 0, 4));
    EXPECT_TRUE(whole.wordWrap());
    EXPECT_EQ(
        part<QPushButton>("importTakeIn").text(), QStringLiteral("&Take in without the bad rows"));
    QTest::keyClick(&dialog, Qt::Key_Return);
    EXPECT_TRUE(bookIsEmpty()) << "Return alone leaves nothing out";
    look({open_.folder / "readings.csv"});
    press("importTakeIn");
    EXPECT_EQ(open_.records()->all<Reading>().size(), 1U);
}

TEST_F(Import, OffersNothingOfAFileThatCannotBeUsed) {
    look({write("readings.csv", "swim,date,distance\nA,2025-04-12,9\n")});
    EXPECT_TRUE(part<QPushButton>("importTakeIn").isHidden());
    EXPECT_TRUE(
        part<QLabel>("importSummary").text().startsWith(QStringLiteral("Nothing can be taken in")));
    EXPECT_GT(part<QTableView>("badRows").model()->rowCount(), 0);
}

TEST_F(Import, SaysWhyAFileCannotBeRead) {
    look({open_.folder / "gone.txt"});
    EXPECT_TRUE(part<QLabel>("importSummary").text().contains(QStringLiteral("gone.txt")));
    EXPECT_TRUE(part<QPushButton>("importTakeIn").isHidden());
}

TEST_F(Import, TakesAFileTwiceOnlyAfterATick) {
    const auto page = write("page.txt", whole(eveningPage()));
    look({page});
    press("importTakeIn");
    ASSERT_EQ(open_.records()->all<Reading>().size(), 51U);
    look({page});
    EXPECT_EQ(
        part<QLabel>("importAgainWords").text(),
        QStringLiteral("page.txt was imported before, as page.txt."));
    EXPECT_FALSE(part<QPushButton>("importTakeIn").isEnabled());
    QTest::keyClick(&part<QCheckBox>("importAgain"), Qt::Key_Space);
    ASSERT_TRUE(part<QPushButton>("importTakeIn").isEnabled());
    press("importTakeIn");
    EXPECT_EQ(open_.records()->all<Reading>().size(), 102U);
}

TEST_F(Import, ShowsOneFileAfterAnother) {
    look(
        {write("page.txt", whole(eveningPage())),
         write("swims.csv", "swim,lat,lon,tip_height_m\nA & B,52.2,-1.2,1.8\n")});
    auto& list = part<QListWidget>("importList");
    ASSERT_EQ(list.count(), 2);
    list.setFocus();
    QTest::keyClick(&list, Qt::Key_Down);
    EXPECT_EQ(cell("importRows", 0, 1), QStringLiteral("A & B"));
    EXPECT_EQ(part<QLabel>("importFileWords").text(), QStringLiteral("swims.csv: swims, 1 row"));
}

TEST_F(Import, OfManyFixesShowsTheFirstAndCountsAll) {
    std::string text = "east_m,north_m,depth_m\n";
    for (int i = 0; i < 3000; ++i) {
        text += std::to_string(i % 60) + ',' + std::to_string(i / 60) + (i == 7 ? ",x\n" : ",2\n");
    }
    look({write("fixes.csv", text)});
    EXPECT_EQ(part<QTableView>("importRows").model()->rowCount(), 500);
    EXPECT_EQ(
        part<QLabel>("importFileWords").text(),
        QStringLiteral("fixes.csv: fixes, 2 999 rows; the first 500 are shown"));
    EXPECT_EQ(cell("badRows", 0, 1), QStringLiteral("9")) << "the header is line 1";
    EXPECT_TRUE(part<QLabel>("importSummary")
                    .text()
                    .contains(QStringLiteral("2 999 depths from elsewhere")));
}

TEST_F(Import, StopsWhenTheDialogIsClosedWhileItReads) {
    std::string text = "east_m,north_m,depth_m\n";
    for (int i = 0; i < 50'000; ++i) {
        text += std::to_string(i % 600) + ',' + std::to_string(i / 600) + ",2\n";
    }
    open_.window.importFiles({write("fixes.csv", text)});
    auto& dialog = open_.part<ImportDialog>("importDialog");
    EXPECT_FALSE(open_.desk().jobs().isIdle());
    EXPECT_FALSE(part<QToolButton>("stopButton").isHidden());
    QTest::keyClick(&dialog, Qt::Key_Escape);
    EXPECT_TRUE(open_.desk().jobs().isIdle());
    EXPECT_TRUE(bookIsEmpty());
}

TEST_F(Import, HasNamesForAScreenReader) {
    look({write("readings.csv", readingsTable)});
    for (const char* name : {"importRows", "badRows", "importList", "importNotices"}) {
        EXPECT_FALSE(part<QWidget>(name).accessibleName().isEmpty()) << name;
    }
}

TEST_F(Import, BookSavedAsTablesComesBackRecordByRecord) {
    open_.typePage(eveningPage());
    const std::filesystem::path folder = open_.folder / "tables";
    open_.window.saveTables(folder);
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(message().contains(QLatin1String("whole book is written"))) << message().toStdString();
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        files.push_back(entry.path());
    }
    EXPECT_GT(files.size(), 10U);
    const Book before = *open_.records();
    ASSERT_TRUE(open_.window.newBook(open_.folder / "twin.gpkg"));
    look(files);
    press("importTakeIn");
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(*open_.records() == before);
    // Never over what is there.
    open_.window.saveTables(folder);
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_FALSE(message().contains(QLatin1String("whole book is written")));
}

} // namespace
} // namespace bedlore::testing
