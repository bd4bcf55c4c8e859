// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"
#include "core/units/format.hpp"
#include "gui/dialogs/help_window.hpp"
#include "gui/models/help_topics.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QApplication>
#include <QDir>
#include <QFile>
#include <QImage>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QMenuBar>
#include <QRegularExpression>
#include <QSet>
#include <QTextBrowser>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

// The help is there, says what is true, and is found by keys alone.

namespace bedlore {
namespace {

using ::testing::IsEmpty;
using ::testing::Not;
using testing::OpenWindow;

/// The window with its help open.
struct OpenHelp : OpenWindow {
    OpenHelp() { window.action(QStringLiteral("help"))->trigger(); }
    HelpWindow& help() { return part<HelpWindow>("helpWindow"); }
    QLineEdit& find() { return part<QLineEdit>("helpFind"); }
    QTextBrowser& page() { return part<QTextBrowser>("helpPage"); }
    std::vector<std::string> titles() {
        const auto& list = part<QListWidget>("helpTopics");
        std::vector<std::string> all;
        for (int i = 0; i < list.count(); ++i) {
            all.push_back(list.item(i)->text().toStdString());
        }
        return all;
    }
};

/// All of `text` that the first group of `pattern` catches.
QStringList caught(const QString& text, const QString& pattern) {
    QStringList all;
    QRegularExpressionMatchIterator at = QRegularExpression(pattern).globalMatch(text);
    while (at.hasNext()) {
        all << at.next().captured(1);
    }
    return all;
}

TEST(Help, EveryPageIsWholeAndNamesOnlyActionsThatAreThere) {
    OpenHelp open;
    ASSERT_THAT(open.help().topics(), Not(IsEmpty()));
    for (const HelpTopic& topic : open.help().topics()) {
        SCOPED_TRACE(topic.id.toStdString());
        EXPECT_FALSE(topic.title.isEmpty());
        EXPECT_TRUE(topic.plain.contains(topic.title));
        EXPECT_GT(topic.plain.size(), topic.title.size() + 40);
        EXPECT_FALSE(topic.markdown.contains(u'{')) << "stands for no action";
    }
}

/// The page as it stands in its file, with the names of actions.
QString writtenPage(const QString& id) {
    QFile file(QStringLiteral(":/help/%1.md").arg(id));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << id.toStdString();
    return QString::fromUtf8(file.readAll());
}

TEST(Help, NamesEveryActionOfTheMenus) {
    OpenHelp open;
    QSet<QString> named;
    for (const HelpTopic& topic : open.help().topics()) {
        for (const QString& name :
             caught(writtenPage(topic.id), QStringLiteral(R"(\{(\w+)(?::key)?\})"))) {
            named << name;
        }
    }
    int actions = 0;
    for (const QAction* menu : open.window.menuBar()->actions()) {
        for (const QAction* entry : menu->menu()->actions()) {
            if (!entry->isSeparator()) {
                EXPECT_TRUE(named.contains(entry->objectName()))
                    << entry->objectName().toStdString() << " is on no page of the help";
                ++actions;
            }
        }
    }
    EXPECT_GT(actions, 60);
}

TEST(Help, SaysHowOftenTheBedIsWithinWhatIsSaid) {
    OpenHelp open;
    // Source: the normal distribution. 19 times in 20 an error is under 1.96 of its standard error,
    // 2 times in 3 under 0.97: of 10 m that is 19.6 m and 9.7 m.
    EXPECT_NEAR(std::erf(1.96 / std::sqrt(2.0)), 19.0 / 20.0, 1e-4);
    EXPECT_EQ(withinAbout(10.0 * metre, Unit::Metre), "within about 20 m");
    for (const char* page : {"40-the-map", "45-side-view"}) {
        const QString words = writtenPage(QString::fromLatin1(page));
        EXPECT_TRUE(words.contains(QLatin1String("nineteen times in twenty"))) << page;
        EXPECT_FALSE(words.contains(QLatin1String("two times in three"))) << page;
    }
}

TEST(Help, TellsOfWhatIsLookedForByItsOwnWord) {
    OpenHelp open;
    const std::vector<std::pair<const char*, const char*>> wanted{
        {"night", "47-the-look"},
        {"text", "47-the-look"},
        {"units", "47-the-look"},
        {"shorthand", "27-shorthand"},
        {"paste", "22-lines"},
        {"spot rods", "20-the-page"},
        {"recent", "70-the-book"},
        {"tables", "70-the-book"}};
    for (const auto& [word, id] : wanted) {
        SCOPED_TRACE(word);
        std::vector<std::string> found;
        for (const std::size_t i : topicsAbout(open.help().topics(), QString::fromLatin1(word))) {
            found.push_back(open.help().topics()[i].id.toStdString());
        }
        EXPECT_THAT(found, ::testing::Contains(id));
    }
}

TEST(Help, LinksLeadToPagesAndNowhereElse) {
    OpenHelp open;
    QSet<QString> ids;
    for (const HelpTopic& topic : open.help().topics()) {
        ids << topic.id;
    }
    int links = 0;
    for (const HelpTopic& topic : open.help().topics()) {
        for (const QString& target : caught(topic.markdown, QStringLiteral(R"(\]\(([^)]*)\))"))) {
            SCOPED_TRACE((topic.id + u' ' + target).toStdString());
            if (target.startsWith(QLatin1String("topic:"))) {
                EXPECT_TRUE(ids.contains(target.mid(6)));
                ++links;
            } else {
                EXPECT_TRUE(QFile::exists(QStringLiteral(":/help/") + target));
            }
        }
    }
    EXPECT_GT(links, 0);
}

TEST(Help, PicturesShowSomethingAndEachIsUsed) {
    OpenHelp open;
    QSet<QString> used;
    for (const HelpTopic& topic : open.help().topics()) {
        for (const QString& name :
             caught(topic.markdown, QStringLiteral(R"(\]\(pictures/([^)]*)\))"))) {
            used << name;
        }
    }
    const QStringList there = QDir(QStringLiteral(":/help/pictures")).entryList(QDir::Files);
    EXPECT_EQ(QSet<QString>(there.begin(), there.end()), used);
    for (const QString& name : there) {
        SCOPED_TRACE(name.toStdString());
        const QImage picture(QStringLiteral(":/help/pictures/") + name);
        ASSERT_FALSE(picture.isNull());
        QSet<QRgb> colours;
        for (int x = 0; x < picture.width(); x += 3) {
            for (int y = 0; y < picture.height(); y += 3) {
                colours << picture.pixel(x, y);
            }
        }
        EXPECT_GT(colours.size(), 20) << "a picture of an empty window";
    }
}

/// What stands between backquotes in the first column of the tables of `text`.
void addExamples(const QString& text, std::vector<std::string>& lines) {
    for (const QString& row : text.split(u'\n')) {
        if (row.startsWith(QLatin1String("| `"))) {
            for (const QString& example :
                 caught(row.section(u'|', 1, 1), QStringLiteral("`([^`]*)`"))) {
                lines.push_back(example.toStdString());
            }
        }
    }
}

const std::vector<std::string> headsOfExamples{
    "swim the Point",
    "date 2025-04-12",
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "float pulls 12 in + 12 in"};

/// `lines` under those heads, each as what it is shown for.
void expectUnderstood(const std::vector<std::string>& lines) {
    ASSERT_GT(lines.size(), headsOfExamples.size() + 20);
    PageContext context;
    context.reels = {"big pit reel"};
    const PageMeaning meaning = readPage(lines, context);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        SCOPED_TRACE(lines[i]);
        EXPECT_EQ(meaning.lines[i].unclear, "");
        EXPECT_NE(meaning.lines[i].kind, LineKind::Note);
    }
}

TEST(Help, EveryExampleIsUnderstoodAsThePageSays) {
    OpenHelp open;
    std::vector<std::string> lines = headsOfExamples;
    for (const HelpTopic& topic : open.help().topics()) {
        addExamples(topic.markdown, lines);
    }
    expectUnderstood(lines);
}

TEST(Readme, EveryKindOfLineIsUnderstoodAsItSays) {
    QFile file(QStringLiteral(BEDLORE_SOURCE_DIR "/README.md"));
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const QString text = QString::fromUtf8(file.readAll());
    const qsizetype table = text.indexOf(QLatin1String("| you write | it means |"));
    ASSERT_GE(table, 0);
    std::vector<std::string> lines = headsOfExamples;
    addExamples(text.mid(table, text.indexOf(QLatin1String("\n\n"), table) - table), lines);
    expectUnderstood(lines);
}

TEST(Help, WhateverIsTypedFirstIsLookedFor) {
    OpenHelp open;
    QApplication::setActiveWindow(&open.help());
    EXPECT_TRUE(open.find().hasFocus());
    open.page().setFocus();
    open.window.action(QStringLiteral("help"))->trigger();
    EXPECT_TRUE(open.find().hasFocus()) << "each time that he asks for it";
}

TEST(Help, ControlFLeadsToItsOwnSearch) {
    OpenHelp open;
    QApplication::setActiveWindow(&open.help());
    QTest::keyClicks(&open.find(), QStringLiteral("weed"));
    open.page().setFocus();
    QTest::keyClick(&open.page(), Qt::Key_F, Qt::ControlModifier);
    EXPECT_TRUE(open.find().hasFocus());
    EXPECT_EQ(open.find().selectedText(), QStringLiteral("weed")) << "typed over at once";
}

TEST(Help, IsFoundByAWordWithoutTheMouse) {
    OpenHelp open;
    const std::vector<std::string> all = open.titles();
    QTest::keyClicks(&open.find(), QStringLiteral("HATCHING"));
    EXPECT_THAT(open.titles(), ::testing::Contains("Reading the map"));
    EXPECT_LT(open.titles().size(), all.size());
    // In the title goes before in the text.
    open.find().clear();
    QTest::keyClicks(&open.find(), QStringLiteral("mistakes"));
    EXPECT_EQ(open.titles().front(), "Mistakes to look for");
    open.find().clear();
    ASSERT_TRUE(open.help().show(QStringLiteral("10-first-map")));
    QTest::keyClick(&open.find(), Qt::Key_Down);
    EXPECT_EQ(open.help().topic(), QLatin1String("20-the-page"));
    QTest::keyClick(&open.find(), Qt::Key_Return);
    EXPECT_TRUE(open.page().toPlainText().contains(QLatin1String("One line after another")));
    open.find().clear();
    QTest::keyClicks(&open.find(), QStringLiteral("zebra"));
    EXPECT_THAT(open.titles(), IsEmpty());
    EXPECT_TRUE(open.page().toPlainText().contains(QLatin1String("No page of the help")));
    open.find().clear();
    EXPECT_EQ(open.titles(), all);
}

TEST(Help, LinkTurnsToItsPage) {
    OpenHelp open;
    ASSERT_TRUE(open.help().show(QStringLiteral("10-first-map")));
    Q_EMIT open.page().anchorClicked(QUrl(QStringLiteral("topic:30-aims")));
    EXPECT_EQ(open.help().topic(), QLatin1String("30-aims"));
    EXPECT_FALSE(open.help().show(QStringLiteral("no such page")));
    EXPECT_EQ(open.help().topic(), QLatin1String("30-aims"));
}

TEST(Help, UndoIsNamedWithoutWhatItWouldUndo) {
    OpenWindow open;
    open.typePage(testing::headers);
    ASSERT_TRUE(open.window.action(QStringLiteral("undo"))->text().contains(u':'));
    open.window.action(QStringLiteral("help"))->trigger();
    for (const HelpTopic& topic : open.part<HelpWindow>("helpWindow").topics()) {
        EXPECT_FALSE(topic.plain.contains(QLatin1String("Undo:"))) << topic.id.toStdString();
    }
}

} // namespace
} // namespace bedlore
