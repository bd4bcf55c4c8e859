// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/import_dialog.hpp"
#include "gui/widgets/scrolled_part.hpp"
#include "gui/window/tour_guide.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/gui/window/passing_dialogs.hpp"

#include <QAction>
#include <QDialog>
#include <QHeaderView>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>
#include <QTextBlock>
#include <QTextBrowser>
#include <QToolButton>

#include <map>
#include <vector>

// Text two and a half times as large, on a small screen: nothing is out of reach.

namespace bedlore::testing {
namespace {

constexpr double largest = 2.5;
constexpr QSize smallScreen(1280, 720);

void settle() {
    QCoreApplication::processEvents();
    QCoreApplication::sendPostedEvents();
}

bool isInScroll(const QWidget* widget) {
    for (const QWidget* at = widget->parentWidget(); at != nullptr; at = at->parentWidget()) {
        if (at->inherits("QScrollArea")) {
            return true;
        }
    }
    return false;
}

/// Gives how many buttons were looked at.
int expectButtonsInSight(const QWidget& dialog) {
    int looked = 0;
    for (const QPushButton* button : dialog.findChildren<QPushButton*>()) {
        if (button->isVisible() && !isInScroll(button)) {
            ++looked;
            const QRect place(button->mapTo(&dialog, QPoint()), button->size());
            EXPECT_TRUE(dialog.rect().contains(place)) << button->text().toStdString();
            EXPECT_GE(button->width(), button->minimumSizeHint().width())
                << button->text().toStdString();
        }
    }
    return looked;
}

/// As it comes up, and on a small screen.
void expectFits(QWidget& dialog, int buttons) {
    SCOPED_TRACE(dialog.objectName().toStdString());
    settle();
    const QSize room = roomOnScreen(dialog);
    EXPECT_LE(dialog.height(), room.height());
    EXPECT_LE(dialog.width(), std::max(room.width(), smallScreen.width()));
    EXPECT_EQ(expectButtonsInSight(dialog), buttons);
    dialog.resize(smallScreen);
    settle();
    EXPECT_EQ(dialog.size(), smallScreen) << "it does not force itself larger";
    EXPECT_EQ(expectButtonsInSight(dialog), buttons);
    for (const QScrollArea* scroll : dialog.findChildren<QScrollArea*>()) {
        EXPECT_LE(scroll->widget()->width(), scroll->viewport()->width())
            << scroll->objectName().toStdString() << ": words go off the side";
    }
}

struct LargeWindow : OpenWindow {
    LargeWindow() {
        window.setTextScale(largest);
        typePage(eveningPage());
    }
    ~LargeWindow() { window.setTextScale(1.0); }
    LargeWindow(const LargeWindow&) = delete;
    LargeWindow& operator=(const LargeWindow&) = delete;
    LargeWindow(LargeWindow&&) = delete;
    LargeWindow& operator=(LargeWindow&&) = delete;
    void open(const char* action) { window.action(QString::fromLatin1(action))->trigger(); }
};

TEST(LargeText, EveryDialogFitsASmallScreenWithItsButtonsInSight) {
    LargeWindow open;
    ExportDialog files(
        open.desk().builder().map(),
        {.folder = QString::fromStdString(open.folder.path().string()),
         .name = QStringLiteral("Harl Pit"),
         .units = {},
         .formats = {.geotiff = true, .geojson = true, .pdf = true, .tables = true}});
    files.show();
    expectFits(files, 2); // write, cancel
    EXPECT_GT(
        files.findChild<ScrolledPart*>(QStringLiteral("exportScroll"))
            ->verticalScrollBar()
            ->maximum(),
        0)
        << "the rest is reached by scrolling";
    for (const char* action :
         {"print", "keys", "help", "swimPlace", "levelMark", "privateThings"}) {
        open.open(action);
    }
    const std::map<QString, int> buttons{
        {QStringLiteral("printDialog"), 2}, // write a PDF, close; no printer here
        {QStringLiteral("keysDialog"), 1},
        {QStringLiteral("helpWindow"), 0},
        {QStringLiteral("swimDialog"), 2},
        {QStringLiteral("levelDialog"), 2},
        {QStringLiteral("privateDialog"), 2}};
    const auto dialogs = open.window.findChildren<QDialog*>();
    EXPECT_EQ(dialogs.size(), 6);
    for (QDialog* dialog : dialogs) {
        ASSERT_TRUE(buttons.contains(dialog->objectName())) << dialog->objectName().toStdString();
        const bool hasPrinter =
            dialog->objectName() == QLatin1String("printDialog") &&
            dialog->findChild<QPushButton*>(QStringLiteral("printPrint"))->isVisibleTo(dialog);
        expectFits(*dialog, buttons.at(dialog->objectName()) + (hasPrinter ? 1 : 0));
    }
    PassingDialogs passing;
    expectFits(*passing.all()[0], 2); // go on, cancel
    expectFits(*passing.all()[1], 1); // stop
    ImportDialog import(
        {.files = {QStringLiteral("page.txt")}, .water = QStringLiteral("Harl Pit")});
    import.show();
    ImportPlan plan;
    plan.files.push_back({.name = "readings.csv"});
    plan.bad.push_back({"readings.csv", 2, "depth", "deep", "a number"});
    plan.notices.emplace_back("readings.csv: one thing to know.");
    plan.canSkipBad = true;
    import.showPlan(plan);
    expectFits(import, 2); // take in, cancel
}

TEST(LargeText, ButtonsOfTheHeadStandBelowItsWords) {
    OpenWindow open;
    constexpr QSize screen(1280, 960);
    open.window.resize(screen);
    open.typePage(headers);
    const auto& head = open.part<QWidget>("headerLine");
    const int usual = head.height();
    open.window.setTextScale(largest);
    settle();
    EXPECT_GT(head.height(), usual);
    int buttons = 0;
    for (const QToolButton* button : head.findChildren<QToolButton*>()) {
        if (button->objectName().isEmpty()) { // the words have names
            ++buttons;
            EXPECT_TRUE(button->isVisible()) << button->text().toStdString();
            const QRect place(button->mapTo(&head, QPoint()), button->size());
            EXPECT_TRUE(head.rect().contains(place)) << button->text().toStdString();
        }
    }
    EXPECT_EQ(buttons, 4);
    EXPECT_EQ(open.window.size(), screen);
}

TEST(LargeText, ActsOfTheHeadStandUnderOneButtonWhereTheyHaveNoRoom) {
    LargeWindow open;
    open.window.resize(smallScreen);
    settle();
    const auto& head = open.part<QWidget>("headerLine");
    auto& more = open.part<QToolButton>("headerMore");
    ASSERT_TRUE(more.isVisible());
    EXPECT_TRUE(head.rect().contains(QRect(more.mapTo(&head, QPoint()), more.size())));
    EXPECT_NE(more.focusPolicy() & Qt::TabFocus, 0) << "reached by the keyboard";
    EXPECT_FALSE(more.accessibleName().isEmpty());
    std::vector<QAction*> acts;
    for (const char* name : {"find", "newPage", "print", "export"}) {
        acts.push_back(open.window.action(QString::fromLatin1(name)));
    }
    const QList<QAction*> listed = more.menu()->actions();
    EXPECT_EQ(std::vector<QAction*>(listed.begin(), listed.end()), acts);
    for (const QToolButton* button : head.findChildren<QToolButton*>()) {
        EXPECT_TRUE(!button->objectName().isEmpty() || !button->isVisible())
            << button->text().toStdString();
    }
    open.window.setTextScale(1.0);
    settle();
    EXPECT_FALSE(more.isVisible()) << "the buttons stand there themselves";
}

TEST(LargeText, TheKeyStandsInSightInTheListOfKeys) {
    LargeWindow open;
    open.open("keys");
    settle();
    const auto& table = open.part<QTableView>("keysTable");
    const QHeaderView& head = *table.horizontalHeader();
    const int key = 1; // what it does, the key, where
    EXPECT_LE(head.sectionViewportPosition(key) + head.sectionSize(key), table.viewport()->width());
    const QModelIndex words = table.model()->index(0, 0);
    EXPECT_TRUE(words.data(Qt::ToolTipRole).toString().contains(words.data().toString()));
}

TEST(LargeText, ExamplesInTheHelpAreAsLargeAsItsWords) {
    LargeWindow open;
    open.open("help");
    auto& page = open.part<QTextBrowser>("helpPage");
    int examples = 0;
    const auto look = [&](double points) {
        for (QTextBlock at = page.document()->begin(); at.isValid(); at = at.next()) {
            for (auto part = at.begin(); !part.atEnd(); ++part) {
                const QTextCharFormat format = part.fragment().charFormat();
                if (format.fontFixedPitch()) {
                    ++examples;
                    EXPECT_DOUBLE_EQ(format.fontPointSize(), points);
                }
            }
        }
    };
    auto& list = open.part<QAbstractItemView>("helpTopics");
    for (int row = 0; row < list.model()->rowCount(); ++row) {
        list.setCurrentIndex(list.model()->index(row, 0));
        look(page.font().pointSizeF());
    }
    EXPECT_GT(examples, 0);
    EXPECT_GT(page.font().pointSizeF(), 20.0) << "2.5 times 10.5";
    open.window.setTextScale(1.0);
    look(page.font().pointSizeF());
    EXPECT_LT(page.font().pointSizeF(), 11.0);
}

bool isCut(const QLabel& label) {
    const int needed = label.wordWrap() && label.heightForWidth(label.width()) >= 0
                           ? label.heightForWidth(label.width())
                           : label.sizeHint().height();
    return label.height() < needed ||
           (!label.wordWrap() && label.width() < label.sizeHint().width());
}

/// A window that begins as the program does, with the settings of the one before.
struct Started {
    Started(const TempFolder& folder)
        : window(
              {.book = {},
               .practice = folder / "practice.gpkg",
               .settings = folder / "settings.ini"}) {
        window.resize(smallScreen);
        window.show();
        settle();
    }
    MainWindow window;
};

void expectNothingCut(const QWidget& part) {
    int looked = 0;
    for (const QWidget* widget : part.findChildren<QWidget*>()) {
        if (!widget->isVisible()) {
            continue;
        }
        if (const auto* label = qobject_cast<const QLabel*>(widget)) {
            ++looked;
            EXPECT_FALSE(isCut(*label)) << label->text().toStdString();
        } else if (qobject_cast<const QAbstractButton*>(widget) != nullptr) {
            ++looked;
            EXPECT_GE(widget->width(), widget->minimumSizeHint().width())
                << widget->objectName().toStdString();
            EXPECT_GE(widget->height(), widget->minimumSizeHint().height())
                << widget->objectName().toStdString();
        }
    }
    EXPECT_GE(looked, 5);
}

TEST(LargeText, StartAndTourAreWholeOrScrolled) {
    const TempFolder folder;
    Started at(folder);
    at.window.setTextScale(largest);
    settle();
    EXPECT_EQ(at.window.size(), smallScreen) << "it does not force itself larger";
    auto* start = at.window.findChild<QWidget*>(QStringLiteral("startPanel"));
    ASSERT_NE(start, nullptr);
    expectNothingCut(*start);
    at.window.openPractice();
    ASSERT_NE(at.window.desk(), nullptr);
    EXPECT_TRUE(waitUntilIdle(at.window.desk()->jobs()));
    auto* tour = at.window.findChild<QWidget*>(QStringLiteral("tourPanel"));
    for (int step = 0; step < 3; ++step) {
        settle();
        expectNothingCut(*tour);
        EXPECT_LE(tour->height(), at.window.height() / 2);
        tour->findChild<QPushButton*>(QStringLiteral("tourOn"))->click();
    }
    EXPECT_EQ(at.window.size(), smallScreen) << "it does not force itself larger";
    at.window.setTextScale(1.0);
}

/// The tour on a small screen, at the largest text.
struct LargeTour {
    LargeTour()
        : at(folder) {
        at.window.setTextScale(largest);
        at.window.openPractice();
        EXPECT_TRUE(waitUntilIdle(at.window.desk()->jobs()));
        settle();
    }
    ~LargeTour() { at.window.setTextScale(1.0); }
    LargeTour(const LargeTour&) = delete;
    LargeTour& operator=(const LargeTour&) = delete;
    LargeTour(LargeTour&&) = delete;
    LargeTour& operator=(LargeTour&&) = delete;
    TempFolder folder;
    Started at;
};

TEST(LargeText, MessageBesideTheTourDoesNotMakeTheWindowLarger) {
    LargeTour tour;
    Q_EMIT tour.at.window.guide().warned(QStringLiteral("A sentence about what went wrong."));
    settle();
    EXPECT_TRUE(tour.at.window.findChild<QLabel*>(QStringLiteral("message"))->isVisible());
    EXPECT_EQ(tour.at.window.size(), smallScreen);
}

TEST(LargeText, EachStepOfTheTourBeginsAtItsTop) {
    LargeTour tour;
    auto* scroll = tour.at.window.findChild<ScrolledPart*>(QStringLiteral("tourScroll"));
    QScrollBar& bar = *scroll->verticalScrollBar();
    for (const char* key : {"tourOn", "tourOn", "tourBack"}) {
        ASSERT_GT(bar.maximum(), 0);
        bar.setValue(bar.maximum());
        tour.at.window.findChild<QPushButton*>(QString::fromLatin1(key))->click();
        settle();
        EXPECT_EQ(bar.value(), 0) << key;
    }
}

/// The size of all words that are shown, by what shows them.
std::map<std::string, double> wordSizes(const MainWindow& window) {
    std::map<std::string, double> sizes;
    sizes["menu bar"] = window.menuBar()->font().pointSizeF();
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        const bool hasWords = widget->inherits("QLabel") || widget->inherits("QAbstractButton") ||
                              widget->inherits("QPlainTextEdit") || widget->inherits("QMenu");
        const std::string name = widget->objectName().toStdString();
        if (hasWords && !name.empty() && !name.starts_with("qt_")) {
            sizes[name] = widget->font().pointSizeF();
        }
    }
    return sizes;
}

TEST(LargeText, IsAsLargeAfterARestartAsAfterTheKeys) {
    const TempFolder folder;
    const auto sizesOf = [](MainWindow& window) {
        EXPECT_TRUE(waitUntilIdle(window.desk()->jobs()));
        settle();
        return wordSizes(window);
    };
    std::map<std::string, double> usual;
    std::map<std::string, double> large;
    {
        Started at(folder);
        at.window.openPractice();
        usual = sizesOf(at.window);
        at.window.setTextScale(largest);
        large = sizesOf(at.window);
        EXPECT_GT(large.at("menu bar"), 2.0 * usual.at("menu bar"));
        EXPECT_GT(large.at("tourText"), 2.0 * usual.at("tourText"));
        EXPECT_EQ(usual.at("tourText"), usual.at("menu bar"));
    }
    {
        Started at(folder);
        at.window.openPractice();
        EXPECT_EQ(sizesOf(at.window), large);
        at.window.setTextScale(1.0);
        EXPECT_EQ(sizesOf(at.window), usual);
    }
    Started at(folder);
    at.window.openPractice();
    EXPECT_EQ(sizesOf(at.window), usual);
}

} // namespace
} // namespace bedlore::testing
