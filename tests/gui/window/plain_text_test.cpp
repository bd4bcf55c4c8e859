// SPDX-License-Identifier: MIT
#include "gui/widgets/foot_line.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAbstractButton>
#include <QAction>
#include <QHelpEvent>
#include <QLabel>
#include <QTextBlock>
#include <QTextDocument>
#include <QToolTip>
#include <QWindow>
#include <gtest/gtest.h>

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

} // namespace
} // namespace bedlore::testing
