// SPDX-License-Identifier: MIT
#include "gui/dialogs/file_questions.hpp"
#include "gui/dialogs/tables_dialog.hpp"
#include "tests/gui/window/file_question.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QCheckBox>
#include <QLabel>
#include <QToolButton>

#include <fstream>
#include <iterator>

// Where the window asks for a name to write under, and what it does with the answer.

namespace bedlore::testing {
namespace {

class Files : public ::testing::Test {
protected:
    OpenWindow open_;

    QString message() { return open_.part<QLabel>("message").text(); }
    /// Chooses an action that asks for a file, and answers; gives the caption of the question.
    QString choose(const char* action, const std::filesystem::path& answer) {
        QString caption;
        answerNextFileQuestion([&](QFileDialog& dialog) {
            caption = dialog.windowTitle();
            EXPECT_TRUE(dialog.testOption(QFileDialog::DontConfirmOverwrite))
                << "asked whether to replace what will not be replaced";
            return QString::fromStdString(answer.string());
        });
        open_.window.action(QString::fromLatin1(action))->trigger();
        return caption;
    }
};

TEST(FileQuestions, NamesEndOnceAsItShouldWhateverTheCase) {
    const QString ending = QStringLiteral(".gpkg");
    EXPECT_EQ(withEnding(QStringLiteral("/b/copy"), ending), QStringLiteral("/b/copy.gpkg"));
    EXPECT_EQ(withEnding(QStringLiteral("/b/copy.gpkg"), ending), QStringLiteral("/b/copy.gpkg"));
    EXPECT_EQ(withEnding(QStringLiteral("/b/COPY.GPKG"), ending), QStringLiteral("/b/COPY.GPKG"));
    EXPECT_EQ(withEnding(QStringLiteral("/b/gpkg"), ending), QStringLiteral("/b/gpkg.gpkg"));
    EXPECT_EQ(withEnding(QStringLiteral("/b/tables"), QString()), QStringLiteral("/b/tables"));
}

TEST_F(Files, ACopyIsFoundAgainAmongTheBooks) {
    open_.typePage(headers);
    choose("saveCopy", open_.folder / "backup");
    EXPECT_TRUE(std::filesystem::exists(open_.folder / "backup.gpkg"));
    EXPECT_FALSE(std::filesystem::exists(open_.folder / "backup"));
    choose("saveCopy", open_.folder / "SECOND.GPKG");
    EXPECT_TRUE(std::filesystem::exists(open_.folder / "SECOND.GPKG"));
    EXPECT_FALSE(std::filesystem::exists(open_.folder / "SECOND.GPKG.gpkg"));
}

TEST_F(Files, ANewBookToo) {
    choose("newBook", open_.folder / "Low Mere");
    EXPECT_EQ(open_.desk().document().path(), open_.folder / "Low Mere.gpkg");
    choose("newBook", open_.folder / "LONG WATER.GPKG");
    EXPECT_EQ(open_.desk().document().path(), open_.folder / "LONG WATER.GPKG");
}

TEST_F(Files, ANameThatIsTakenIsRefusedOnce) {
    const std::filesystem::path taken = open_.folder / "taken.gpkg";
    std::ofstream(taken) << "mine";
    for (const char* action : {"saveCopy", "newBook", "saveTables"}) {
        choose(action, taken);
        EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
        EXPECT_FALSE(message().isEmpty()) << action;
        EXPECT_EQ(open_.desk().document().path(), open_.book) << action;
        EXPECT_EQ(std::filesystem::file_size(taken), 4U) << action;
        open_.part<QToolButton>("messageAway").click();
    }
}

TEST_F(Files, TablesSayWhatTheyHoldBeforeTheyAreWritten) {
    open_.typePage(eveningPage());
    const std::filesystem::path folder = open_.folder / "tables";
    const QString caption = choose("saveTables", folder);
    EXPECT_TRUE(caption.contains(QStringLiteral("nothing in it private"))) << caption.toStdString();
    EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(std::filesystem::is_directory(folder));
}

TEST_F(Files, TablesKeepPrivateSpotsAtHomeUnlessTheyAreTicked) {
    open_.typePage(
        {"swim the Point",
         "date 2025-04-12",
         "sticks 12 ft",
         "distances wraps",
         "depths ft",
         "A 28 9",
         "20 8",
         "TOOTH = A 26"});
    Spot spot;
    for (const Spot& one : open_.records()->all<Spot>()) {
        spot = one;
    }
    ASSERT_EQ(spot.name, "TOOTH");
    spot.isPrivate = true;
    ASSERT_TRUE(open_.desk().document().apply("private", {Put<Spot>{spot}}));
    for (const PrivateThings choice : {PrivateThings::LeaveOut, PrivateThings::Include}) {
        const bool goes = choice == PrivateThings::Include;
        const std::filesystem::path folder = open_.folder / (goes ? "all" : "some");
        open_.window.saveTables(folder, choice);
        ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
        EXPECT_TRUE(message().contains(
            goes ? QStringLiteral("with 1 private spot: it is not for sharing")
                 : QStringLiteral("kept back: 1 private spot")))
            << message().toStdString();
        std::ifstream spots(folder / "spots.csv");
        const std::string text{std::istreambuf_iterator<char>(spots), {}};
        EXPECT_EQ(text.find("TOOTH") != std::string::npos, goes);
    }
    TablesDialog dialog(privateThingsIn(*open_.records()), nullptr);
    EXPECT_EQ(dialog.privateThings(), PrivateThings::LeaveOut);
    const auto* holds = dialog.findChild<QLabel*>(QStringLiteral("tablesHold"));
    EXPECT_TRUE(holds->text().contains(QStringLiteral("Kept back: 1 private spot")));
    QTest::keyClick(dialog.findChild<QCheckBox*>(QStringLiteral("tablesPrivate")), Qt::Key_Space);
    EXPECT_EQ(dialog.privateThings(), PrivateThings::Include);
    EXPECT_TRUE(holds->text().contains(QStringLiteral("not for sharing")));
}

TEST_F(Files, TablesThatAreWrittenCanBeStopped) {
    open_.typePage(eveningPage());
    const std::filesystem::path folder = open_.folder / "tables";
    auto& stop = open_.part<QToolButton>("stopButton");
    EXPECT_TRUE(stop.isHidden());
    open_.window.saveTables(folder);
    EXPECT_FALSE(stop.isHidden());
    stop.click();
    EXPECT_TRUE(stop.isHidden());
    EXPECT_TRUE(message().startsWith(QStringLiteral("Stopped."))) << message().toStdString();
    EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(message().startsWith(QStringLiteral("Stopped.")))
        << "what was stopped says nothing";
}

} // namespace
} // namespace bedlore::testing
