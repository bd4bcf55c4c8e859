// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/support/disk_log.hpp"

#include <QLabel>
#include <QSignalSpy>
#include <QTimer>
#include <gmock/gmock.h>

#include <sqlite3.h>

// The disk fills up under the open book, and has room again.

namespace bedlore::testing {
namespace {

using ::testing::HasSubstr;

struct FullDiskWindow {
    DiskLog disk; ///< below the book from its first write on
    OpenWindow open;

    FullDiskWindow() {
        std::vector<std::string> lines = headers;
        lines.emplace_back("A 32 6'");
        open.typePage(lines);
    }
    void fill(int code = SQLITE_FULL) { disk.failFrom(0, code); }
    std::string message() { return open.part<MessageBar>("messageBar").text().toStdString(); }
    std::string kept() { return open.part<QLabel>("kept").text().toStdString(); }
    /// How many readings another program finds in the book.
    std::size_t readingsOnTheDisk() {
        const auto other = BookFile::open(open.book, BookAccess::ReadOnly);
        EXPECT_TRUE(other.has_value()) << other.error().message;
        return other ? other->book().all<Reading>().size() : 0;
    }
    /// What could not be kept is tried again now instead of after a while.
    void tryAgain() {
        auto& again = open.part<QTimer>("again");
        EXPECT_TRUE(again.isActive());
        QSignalSpy ends(&again, &QTimer::timeout);
        again.start(0);
        EXPECT_TRUE(ends.wait(60'000));
    }
};

class FullDiskTyping : public ::testing::TestWithParam<int> {};

TEST_P(FullDiskTyping, GoesOnInTheWindowAndIsKeptWhenThereIsRoom) {
    FullDiskWindow full;
    full.fill(GetParam());
    full.open.type("30 7");
    full.open.type("28 8");
    EXPECT_THAT(full.message(), HasSubstr("full"));
    EXPECT_THAT(full.message(), HasSubstr("\"Harl Pit.gpkg\""));
    EXPECT_THAT(full.message(), HasSubstr("What you typed stays here and is tried again."));
    EXPECT_EQ(full.kept(), "not kept yet");
    const QStringList lines = full.open.editor().lines();
    EXPECT_TRUE(lines.contains(QStringLiteral("30 7")));
    EXPECT_TRUE(lines.contains(QStringLiteral("28 8")));
    EXPECT_EQ(full.open.records()->all<Reading>().size(), 1U) << "what is not on the disk";
    full.tryAgain();
    EXPECT_EQ(full.readingsOnTheDisk(), 1U);
    full.disk.heal();
    full.tryAgain();
    EXPECT_EQ(full.kept(), "kept ✓");
    EXPECT_EQ(full.message(), "");
    EXPECT_EQ(full.readingsOnTheDisk(), 3U);
    EXPECT_EQ(full.open.editor().lines(), lines);
    EXPECT_FALSE(full.open.part<QTimer>("again").isActive());
}

INSTANTIATE_TEST_SUITE_P(
    Ways, FullDiskTyping, ::testing::Values(SQLITE_FULL, SQLITE_IOERR_WRITE, SQLITE_IOERR_FSYNC));

TEST(FullDisk, WindowIsNotClosedOverWhatIsNotKept) {
    FullDiskWindow full;
    full.fill();
    full.open.press("30 7");
    EXPECT_FALSE(full.open.window.close());
    EXPECT_TRUE(full.open.window.isVisible());
    EXPECT_THAT(full.message(), HasSubstr("The disk is full"));
    EXPECT_FALSE(full.open.window.closeBook());
    EXPECT_FALSE(full.open.window.close()) << "not the second time either";
    full.disk.heal();
    EXPECT_TRUE(full.open.window.close());
    EXPECT_EQ(full.readingsOnTheDisk(), 2U);
}

TEST(FullDisk, TablesThatCannotBeWrittenAreSaidBeforeTheWindowGoes) {
    FullDiskWindow full;
    full.fill();
    EXPECT_FALSE(full.open.window.close());
    EXPECT_THAT(full.message(), HasSubstr("tables for other programs were not written"));
    EXPECT_THAT(full.message(), HasSubstr("The disk is full"));
    EXPECT_THAT(full.message(), HasSubstr("Close once more"));
    full.disk.heal();
    full.open.type("30 7");
    full.fill();
    EXPECT_FALSE(full.open.window.close()) << "the book is another one now";
    EXPECT_TRUE(full.open.window.close());
    full.disk.heal();
    EXPECT_EQ(full.readingsOnTheDisk(), 2U);
}

TEST(FullDisk, TablesThatAreWrittenInAPauseSayThatTheyWereNot) {
    FullDiskWindow full;
    full.fill();
    EXPECT_FALSE(full.open.desk().builder().writeDerived().has_value());
    EXPECT_THAT(full.message(), HasSubstr("tables for other programs were not written"));
    full.disk.heal();
    EXPECT_TRUE(full.open.desk().builder().writeDerived().has_value());
}

TEST(FullDisk, UndoMovesNothing) {
    FullDiskWindow full;
    full.fill();
    const auto before = full.open.records();
    full.open.window.undo();
    EXPECT_THAT(full.message(), HasSubstr("The disk is full"));
    EXPECT_EQ(full.open.records(), before);
    EXPECT_TRUE(full.open.editor().lines().contains(QStringLiteral("A 32 6'")));
    full.disk.heal();
    full.open.window.undo();
    EXPECT_EQ(full.readingsOnTheDisk(), 0U);
}

TEST(FullDisk, UndoLeavesWhatCouldNotBeKept) {
    FullDiskWindow full;
    full.fill();
    full.open.type("31 7");
    full.open.type("30 8 gr");
    full.open.press("29 9");
    const QStringList typed = full.open.editor().lines();
    full.open.window.undo();
    full.open.window.undo();
    EXPECT_EQ(full.open.editor().lines(), typed);
    full.disk.heal();
    ASSERT_TRUE(full.open.desk().page().keep());
    EXPECT_EQ(full.readingsOnTheDisk(), 4U) << "the one before, and these three";
}

TEST(FullDisk, NewBookAndCopyAreSentences) {
    FullDiskWindow full;
    full.fill();
    full.open.window.saveCopy(full.open.folder / "copy.gpkg");
    EXPECT_THAT(full.message(), HasSubstr("\"copy.gpkg\" could not be made"));
    EXPECT_FALSE(std::filesystem::exists(full.open.folder / "copy.gpkg"));
    full.disk.heal();
    ASSERT_TRUE(full.open.window.closeBook());
    full.fill();
    EXPECT_FALSE(full.open.window.newBook(full.open.folder / "new.gpkg"));
    EXPECT_THAT(full.message(), HasSubstr("\"new.gpkg\" cannot be made there"));
    EXPECT_FALSE(std::filesystem::exists(full.open.folder / "new.gpkg"));
}

} // namespace
} // namespace bedlore::testing
