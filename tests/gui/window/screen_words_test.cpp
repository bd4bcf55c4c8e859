// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/help_window.hpp"
#include "tests/gui/statistics_words.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAbstractButton>
#include <QAbstractItemModel>
#include <QAbstractItemView>
#include <QAction>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProgressBar>

#include <algorithm>
#include <fstream>
#include <set>

// No word of statistics stands on the screen: not in the help, not on a desk full of readings, its
// panels and dialogs, nor in what a screen reader says.

namespace bedlore::testing {
namespace {

/// Counts what it looked at.
class Reader {
public:
    void read(const QString& words, const QString& where) {
        if (words.isEmpty()) {
            return;
        }
        seen_.insert(words);
        EXPECT_TRUE(statisticsWordIn(words).isEmpty())
            << statisticsWordIn(words).toStdString() << " in " << where.toStdString() << ": "
            << words.toStdString();
    }
    /// All that stands on the parts of `window`, shown or waiting to be.
    void readAll(const QWidget& window) {
        readPart(window);
        for (const QWidget* part : window.findChildren<QWidget*>()) {
            readPart(*part);
        }
        for (const QAction* action : window.findChildren<QAction*>()) {
            for (const QString& words : {action->text(), action->toolTip(), action->statusTip()}) {
                read(words, action->objectName());
            }
        }
        for (const QAbstractItemView* view : window.findChildren<QAbstractItemView*>()) {
            if (view->model() != nullptr) {
                readRows(*view->model(), {}, view->objectName());
            }
        }
    }
    [[nodiscard]] bool hasSeen(const QString& words) const {
        return std::any_of(
            seen_.begin(), seen_.end(), [&](const QString& seen) { return seen.contains(words); });
    }
    [[nodiscard]] std::size_t count() const { return seen_.size(); }

private:
    void readPart(const QWidget& part) {
        const QString where = part.objectName();
        for (const QString& words :
             {part.toolTip(),
              part.statusTip(),
              part.whatsThis(),
              part.accessibleName(),
              part.accessibleDescription(),
              part.windowTitle()}) {
            read(words, where);
        }
        if (const auto* label = qobject_cast<const QLabel*>(&part)) {
            read(label->text(), where);
        }
        if (const auto* button = qobject_cast<const QAbstractButton*>(&part)) {
            read(button->text(), where);
        }
        if (const auto* text = qobject_cast<const QPlainTextEdit*>(&part)) {
            read(text->toPlainText(), where);
        }
        if (const auto* bar = qobject_cast<const QProgressBar*>(&part)) {
            read(bar->format(), where);
        }
        if (const auto* line = qobject_cast<const QLineEdit*>(&part)) {
            read(line->placeholderText(), where);
        }
        if (const auto* choice = qobject_cast<const QComboBox*>(&part)) {
            for (int i = 0; i < choice->count(); ++i) {
                read(choice->itemText(i), where);
            }
        }
    }
    void readRows(const QAbstractItemModel& model, const QModelIndex& under, const QString& where) {
        for (int column = 0; column < model.columnCount(under); ++column) {
            read(model.headerData(column, Qt::Horizontal).toString(), where);
            for (int row = 0; row < model.rowCount(under); ++row) {
                const QModelIndex cell = model.index(row, column, under);
                for (const int role : {Qt::DisplayRole, Qt::ToolTipRole, Qt::AccessibleTextRole}) {
                    read(cell.data(role).toString(), where);
                }
                if (column == 0) {
                    readRows(model, cell, where);
                }
            }
        }
    }

    std::set<QString> seen_;
};

TEST(ScreenWords, HelpHasNoWordOfStatistics) {
    OpenWindow open;
    open.window.action(QStringLiteral("help"))->trigger();
    Reader reader;
    const auto& topics = open.part<HelpWindow>("helpWindow").topics();
    for (const HelpTopic& topic : topics) {
        reader.read(topic.title, topic.id);
        reader.read(topic.plain, topic.id);
    }
    EXPECT_GE(reader.count(), 2 * topics.size());
    EXPECT_TRUE(reader.hasSeen(QStringLiteral("side view"))) << "it does look at the pages";
}

TEST(ScreenWords, DeskFullOfReadingsHasNoWordOfStatistics) {
    OpenWindow open;
    open.typePage(eveningPage());
    Reader reader;
    reader.readAll(open.window);
    // Every action that opens a panel or a dialog, one after another.
    for (const char* name :
         {"panelAims",
          "panelShorthand",
          "find",
          "swimPlace",
          "levelMark",
          "privateThings",
          "print",
          "keys",
          "help"}) {
        QAction* action = open.window.action(QString::fromLatin1(name));
        ASSERT_NE(action, nullptr) << name;
        ASSERT_TRUE(action->isEnabled()) << name;
        action->trigger();
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        reader.readAll(open.window);
    }
    const ExportDialog files(
        open.desk().plan().picture()->bed,
        {.folder = {}, .name = QStringLiteral("Harl Pit"), .units = {}});
    reader.readAll(files);
    for (const char* dialog : {"swimDialog", "levelDialog", "privateDialog", "printDialog"}) {
        EXPECT_TRUE(open.part<QWidget>(dialog).isVisible()) << dialog;
    }
    // A place on the map: how deep, how sure.
    QTest::mouseClick(
        &open.desk().plan(), Qt::LeftButton, Qt::NoModifier, open.desk().plan().rect().center());
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    reader.readAll(open.window);
    EXPECT_TRUE(reader.hasSeen(QStringLiteral("within about"))) << "how sure he may be";
    EXPECT_TRUE(reader.hasSeen(QStringLiteral("angle guessed"))) << "rows of a list";
    EXPECT_GT(reader.count(), 100U);
}

TEST(ScreenWords, FindingAndTakingInHaveNoWordOfStatistics) {
    OpenWindow open;
    open.typePage(eveningPage());
    Reader reader;
    open.window.action(QStringLiteral("find"))->trigger();
    pressKeys(open.part<QLineEdit>("findLine"), QStringLiteral("gravel"));
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    reader.readAll(open.window);
    EXPECT_TRUE(reader.hasSeen(QStringLiteral("9½ gr"))) << "rows of what was found";
    const auto page = open.folder / "page.txt";
    std::ofstream(page) << whole(eveningPage());
    const auto table = open.folder / "readings.csv";
    std::ofstream(table)
        << "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n"
           "A,2025-04-12,1,231.5,true,60,m,3,m,gravel,\n"
           "A,2025-04-12,1,231.5,true,far,m,-3,furlong,ice,\n"
           "A,2025-04-12,2,400000,up,55,wrap,2.8,m,silt,\n";
    open.window.importFiles({page, table});
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    reader.readAll(open.window);
    EXPECT_TRUE(reader.hasSeen(QStringLiteral("furlong"))) << "rows that cannot be used";
    EXPECT_TRUE(
        reader.hasSeen(QStringLiteral("To be taken in")) ||
        reader.hasSeen(QStringLiteral("Without the bad rows")));
    EXPECT_GT(reader.count(), 100U);
}

} // namespace
} // namespace bedlore::testing
