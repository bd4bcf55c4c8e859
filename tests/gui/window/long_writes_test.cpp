// SPDX-License-Identifier: MIT
#include "gui/dialogs/import_dialog.hpp"
#include "gui/dialogs/waiting_dialog.hpp"
#include "tests/gui/held_book.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QCoreApplication>
#include <QEventLoop>
#include <QLabel>
#include <QPointer>
#include <QProgressBar>
#include <QPushButton>
#include <QTimer>

#include <fstream>
#include <functional>

// The window while the book is written to for long: it shows how far that is, stops it, loses
// nothing.

namespace bedlore::testing {
namespace {

class LongWriting : public ::testing::Test {
protected:
    OpenWindow open_;

    /// The dialog with a file read, ready to be taken in.
    QPointer<ImportDialog> look(const std::string& name, const std::string& text) {
        const auto file = open_.folder / name;
        std::ofstream(file) << text;
        open_.window.importFiles({file});
        EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
        return &open_.part<ImportDialog>("importDialog");
    }
    void press(const char* button) {
        QTest::keyClick(&open_.part<QPushButton>(button), Qt::Key_Space);
    }
    /// More than the window writes without a word, with their depths at the corners of metres.
    void takeInManyFixes() {
        std::string text = "east_m,north_m,depth_m\n";
        for (int i = 0; i < many; ++i) {
            text += std::to_string(i % 120) + ',' + std::to_string(i / 120) + ",2\n";
        }
        look("fixes.csv", text);
        press("importTakeIn");
        // Until they are written. Their bed takes longer, and is not waited for by him either.
        while (open_.desk().document().isBusy()) {
            QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
    }
    /// Closes the window while another program holds the book, and lets go of it when `meanwhile`
    /// has been done with what the window shows.
    bool closeAnd(const std::function<void(WaitingDialog&)>& meanwhile) {
        // The tables may have been written in a pause: now they are of an earlier book.
        Water water = *open_.records()->all<Water>().begin();
        water.rules = "no boats";
        EXPECT_TRUE(open_.desk().document().apply("rules", {Put<Water>{water}}).has_value());
        HeldBook other(open_.book);
        bool isShown = false;
        QTimer::singleShot(0, &open_.window, [&] {
            auto& dialog = open_.part<WaitingDialog>("waitingDialog");
            isShown = dialog.isVisible();
            meanwhile(dialog);
            other.letGo();
        });
        const bool isClosed = open_.window.close();
        EXPECT_TRUE(isShown);
        return isClosed;
    }
    QString message() { return open_.part<QLabel>("message").text(); }

    static constexpr int many = 6'000;
};

TEST_F(LongWriting, TypedMeanwhileIsKeptBehindTheImport) {
    const auto dialog = look("page.txt", whole(eveningPage()));
    HeldBook other(open_.book);
    press("importTakeIn");
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_TRUE(open_.part<QProgressBar>("importProgress").isVisible());
    EXPECT_FALSE(open_.part<QPushButton>("importTakeIn").isEnabled()) << "once";
    open_.editor().moveCursor(QTextCursor::Start);
    open_.editor().moveCursor(QTextCursor::EndOfLine);
    open_.type("the Bay");
    EXPECT_EQ(open_.part<QLabel>("kept").text(), QStringLiteral("not kept yet"));
    EXPECT_FALSE(open_.window.close());
    EXPECT_TRUE(message().contains(QLatin1String("still being written to")));
    EXPECT_TRUE(open_.records()->all<Page>().empty());
    other.letGo();
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(dialog == nullptr || !dialog->isVisible());
    EXPECT_EQ(open_.records()->all<Reading>().size(), 51U);
    std::string all;
    for (const Page& page : open_.records()->all<Page>()) {
        all += pageText(*open_.records(), page.id);
    }
    EXPECT_NE(all.find("swim the Bay\n"), std::string::npos) << all;
    EXPECT_EQ(open_.part<QLabel>("kept").text(), QStringLiteral("kept ✓"));
    EXPECT_TRUE(message().startsWith(QLatin1String("Taken in: 1 swim"))) << message().toStdString();
    EXPECT_TRUE(open_.window.close());
}

TEST_F(LongWriting, ImportThatIsStoppedLeavesNothing) {
    const auto dialog = look("page.txt", whole(eveningPage()));
    HeldBook other(open_.book);
    press("importTakeIn");
    QTest::keyClick(dialog, Qt::Key_Return);
    EXPECT_TRUE(open_.part<QPushButton>("importCancel").isEnabled())
        << "a Return held down does not stop it";
    QTest::keyClick(dialog, Qt::Key_Escape);
    EXPECT_FALSE(open_.part<QPushButton>("importCancel").isEnabled());
    EXPECT_EQ(open_.part<QProgressBar>("importProgress").format(), QStringLiteral("stopping"));
    EXPECT_TRUE(dialog->isVisible()) << "until the book is free of it";
    other.letGo();
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(dialog == nullptr || !dialog->isVisible());
    EXPECT_EQ(message(), QStringLiteral("Stopped. Nothing was taken in."));
    EXPECT_TRUE(*open_.records() == Book());
    EXPECT_FALSE(open_.desk().document().canUndo());
}

TEST_F(LongWriting, ClosingALargeBookShowsWhatIsWritten) {
    takeInManyFixes();
    EXPECT_TRUE(closeAnd([](WaitingDialog& dialog) {
        EXPECT_NE(dialog.findChild<QProgressBar*>(QStringLiteral("waitingProgress")), nullptr);
    }));
    const auto stored = BookFile::open(open_.book, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_FALSE(stored->derivedIsStale());
}

TEST_F(LongWriting, ALargeBookCanBeLeftAtOnceWithoutItsTables) {
    takeInManyFixes();
    EXPECT_TRUE(closeAnd([](WaitingDialog& dialog) {
        QTest::keyClick(&dialog, Qt::Key_Return);
        auto& stop = *dialog.findChild<QPushButton*>(QStringLiteral("waitingStop"));
        EXPECT_TRUE(stop.isEnabled()) << "a Return meant for the page does not press it";
        QTest::keyClick(&stop, Qt::Key_Space);
        EXPECT_FALSE(stop.isEnabled());
    }));
    auto stored = BookFile::open(open_.book, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_TRUE(stored->derivedIsStale()) << "whoever reads them is told";
    EXPECT_EQ(stored->integrity(), "ok");
    ASSERT_EQ(stored->book().all<FixSet>().size(), 1U);
    EXPECT_EQ(stored->book().all<FixSet>().begin()->columns->depth.size(), std::size_t{many});
}

} // namespace
} // namespace bedlore::testing
