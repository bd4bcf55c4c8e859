// SPDX-License-Identifier: MIT
#include "gui/dialogs/file_questions.hpp"
#include "tests/gui/window/file_question.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QToolButton>

#include <fstream>

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
    EXPECT_TRUE(caption.contains(QStringLiteral("private spots"))) << caption.toStdString();
    EXPECT_TRUE(caption.contains(QStringLiteral("not for sharing"))) << caption.toStdString();
    EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(std::filesystem::is_directory(folder));
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
