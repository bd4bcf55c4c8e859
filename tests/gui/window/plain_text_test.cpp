// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/import_dialog.hpp"
#include "gui/dialogs/level_dialog.hpp"
#include "gui/dialogs/private_dialog.hpp"
#include "gui/dialogs/swim_dialog.hpp"
#include "gui/widgets/foot_line.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAbstractButton>
#include <QAction>
#include <QHelpEvent>
#include <QLabel>
#include <QListWidget>
#include <QTextBlock>
#include <QTextDocument>
#include <QToolTip>
#include <QWindow>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

// Names and notes that look like markup are shown as they were typed, wherever they are shown.

namespace bedlore::testing {
namespace {

const QString swim = QStringLiteral("<b>x</b><img src=x> & &amp;");
const QString note = QStringLiteral("R & B");

/// What a person reads of a tooltip: Qt draws what looks like markup as markup.
QString readInTip(const QString& tip) {
    if (!Qt::mightBeRichText(tip)) {
        return tip;
    }
    QTextDocument page;
    page.setHtml(tip);
    return page.toPlainText();
}

/// What a person reads on a button or in a menu: "&&" is an ampersand, "&" alone marks a key.
QString readOnButton(QString words) {
    const QChar mark(0x1);
    return words.replace(QStringLiteral("&&"), mark).remove(u'&').replace(mark, u'&');
}

OpenWindow& withHostileNames(OpenWindow& open) {
    open.typePage(
        {"swim " + swim.toStdString(),
         "date 2025-04-12",
         "aim A = <i>dead pine</i> & &amp;",
         "A 30m 9 ft gr, " + note.toStdString(),
         "29m 9 ft"});
    return open;
}

TEST(PlainText, NoLabelTakesANameForMarkup) {
    OpenWindow open;
    withHostileNames(open);
    std::size_t seen = 0;
    for (const QLabel* label : open.window.findChildren<QLabel*>()) {
        const bool holdsMarkup = Qt::mightBeRichText(label->text());
        EXPECT_TRUE(!holdsMarkup || label->textFormat() == Qt::PlainText)
            << label->objectName().toStdString() << ": " << label->text().toStdString();
        ++seen;
    }
    EXPECT_GT(seen, 3U);
}

TEST(PlainText, ButtonsAndMenusShowANameAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    std::size_t named = 0;
    const auto look = [&](const QString& words) {
        if (words.contains(QStringLiteral("<b>"))) {
            ++named;
            EXPECT_TRUE(readOnButton(words).contains(swim)) << words.toStdString();
        }
    };
    for (const QAbstractButton* button : open.window.findChildren<QAbstractButton*>()) {
        look(button->text());
    }
    for (const QAction* action : open.window.findChildren<QAction*>()) {
        look(action->text());
    }
    EXPECT_GE(named, 2U) << "the swim stands over the page, and in the list to choose from";
}

TEST(PlainText, TipsShowANameAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    for (const QWidget* part : open.window.findChildren<QWidget*>()) {
        const QString read = readInTip(part->toolTip());
        EXPECT_FALSE(read.contains(QStringLiteral("&lt;")) || read.contains(QChar(0xFFFC)))
            << part->objectName().toStdString() << ": " << read.toStdString();
    }
}

TEST(PlainText, ATipBesideALineShowsItsNoteAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    PageEditor& editor = open.editor();
    constexpr int lineOfTheNote = 3;
    const QTextCursor cursor(editor.document()->findBlockByNumber(lineOfTheNote));
    const QPoint at = editor.cursorRect(cursor).center();
    QHelpEvent help(QEvent::ToolTip, at, editor.viewport()->mapToGlobal(at));
    QCoreApplication::sendEvent(editor.viewport(), &help);
    EXPECT_TRUE(readInTip(QToolTip::text()).contains(note)) << QToolTip::text().toStdString();
    QToolTip::hideText();
}

TEST(PlainText, TheReadoutUnderThePointerShowsANameAsTyped) {
    FootLine foot;
    foot.resize(200, 30);
    for (const QString& words : {swim, note}) {
        foot.setPointer(words);
        const auto* pointer = foot.findChild<QLabel*>(QStringLiteral("pointerReadout"));
        ASSERT_NE(pointer, nullptr);
        EXPECT_EQ(pointer->textFormat(), Qt::PlainText);
        EXPECT_EQ(readInTip(pointer->toolTip()), words);
    }
    foot.setPointer({});
    EXPECT_TRUE(foot.findChild<QLabel*>(QStringLiteral("pointerReadout"))->toolTip().isEmpty());
}

TEST(PlainText, ATitleShowsTheNameOfTheFile) {
    OpenWindow open;
    const QString name = QStringLiteral("<b>x & [*] y");
    ASSERT_TRUE(open.window.newBook(open.folder / (name.toStdString() + ".gpkg")));
    ASSERT_NE(open.window.windowHandle(), nullptr);
    EXPECT_TRUE(open.window.windowHandle()->title().startsWith(name))
        << open.window.windowHandle()->title().toStdString();
}

/// Fails for every label of `dialog` that takes what looks like markup for markup; gives how many
/// show a piece of it.
int expectPlainLabels(const QWidget& dialog) {
    int named = 0;
    for (const QLabel* label : dialog.findChildren<QLabel*>()) {
        const QString words = label->text();
        EXPECT_TRUE(!Qt::mightBeRichText(words) || label->textFormat() == Qt::PlainText)
            << label->objectName().toStdString() << ": " << words.toStdString();
        named += words.contains(QStringLiteral("<b>")) ? 1 : 0;
    }
    for (const QWidget* part : dialog.findChildren<QWidget*>()) {
        const QString read = readInTip(part->toolTip());
        EXPECT_FALSE(read.contains(QStringLiteral("&lt;")) || read.contains(QChar(0xFFFC)))
            << part->objectName().toStdString() << ": " << read.toStdString();
    }
    return named;
}

TEST(PlainText, TheImportShowsNamesOfFilesAndWaterAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    const QString file = QStringLiteral("<b>x<img src=x> & &amp;.txt");
    const std::filesystem::path path = open.folder / file.toStdString();
    std::ofstream(path)
        << "swim <b>y</b><img src=x>\ndate 2025-04-13\naim A = <i>z</i>\nA 30m 9 ft\n"
        << "what <b>is</b> this\n";
    open.window.importFiles({path});
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    const auto& dialog = open.part<ImportDialog>("importDialog");
    expectPlainLabels(dialog);
    const auto& list = open.part<QListWidget>("importList");
    ASSERT_EQ(list.count(), 1);
    EXPECT_TRUE(list.item(0)->text().contains(file)) << list.item(0)->text().toStdString();

    // The water's name, and a file that cannot be read at all, in sentences.
    const QString water = QStringLiteral("<b>w</b><img src=x>");
    ImportDialog failed({.files = {file}, .water = water});
    EXPECT_GE(expectPlainLabels(failed), 1) << "what is being read";
    failed.showFailure(file + QStringLiteral(" cannot be read."));
    EXPECT_GE(expectPlainLabels(failed), 1) << "what cannot be read";
}

TEST(PlainText, TheExportShowsAHostileNameAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    ASSERT_NE(open.desk().builder().map(), nullptr);
    ExportDialog dialog(
        open.desk().builder().map(),
        {.folder = QStringLiteral("/<b>folder</b>"),
         .name = QStringLiteral("<b>x</b><img src=x> & &amp;"),
         .units = {}});
    for (auto* choice : dialog.findChildren<QAbstractButton*>()) {
        if (choice->isCheckable() && choice->isEnabled()) {
            choice->click(); // everything leaves: the names are offered and said
        }
    }
    EXPECT_GE(expectPlainLabels(dialog), 1) << "which files will be written";
}

TEST(PlainText, ThePlaceOfASwimShowsItsNameAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    open.window.action(QStringLiteral("swimPlace"))->trigger();
    const auto* dialog = open.window.findChild<SwimDialog*>();
    ASSERT_NE(dialog, nullptr);
    const int named = expectPlainLabels(*dialog);
    EXPECT_TRUE(named > 0 || dialog->windowTitle().contains(QStringLiteral("<b>")))
        << "it says whose place is asked for";
}

TEST(PlainText, TheDialogsOfTheWaterShowItsNameAsTyped) {
    OpenWindow open;
    withHostileNames(open);
    open.type("<b>TOOTH</b> = A 26m");
    auto water = *open.records()->all<Water>().begin();
    water.name = swim.toStdString();
    ASSERT_TRUE(open.desk().document().apply("rename", {Put<Water>{water}}).has_value());
    open.window.action(QStringLiteral("levelMark"))->trigger();
    open.window.action(QStringLiteral("privateThings"))->trigger();
    const auto* level = open.window.findChild<LevelDialog*>();
    const auto* kept = open.window.findChild<PrivateDialog*>();
    ASSERT_NE(level, nullptr);
    ASSERT_NE(kept, nullptr);
    EXPECT_GE(expectPlainLabels(*level), 1);
    EXPECT_GE(expectPlainLabels(*kept), 1);
}

} // namespace
} // namespace bedlore::testing
