// SPDX-License-Identifier: MIT
#include "gui/window/actions.hpp"

#include "gui/panels/line_commands.hpp"
#include "gui/panels/tour_panel.hpp"
#include "gui/window/main_window.hpp"

#include <QAction>
#include <QActionGroup>
#include <QApplication>
#include <QCoreApplication>
#include <QMenu>
#include <QMenuBar>

#include <array>
#include <functional>
#include <iterator>
#include <map>

namespace bedlore {

namespace {

enum class Needs : std::uint8_t { Nothing, Book, WritableBook, Map };

/// One row: where it stands, what it is called, its key, what it needs and what it does. `checked`
/// is there where the action is a tick; rows of one `group` exclude each other.
struct Row {
    const char* menu;
    const char* name; ///< empty for a line between groups
    const char* words = "";
    const char* key = "";
    Needs needs = Needs::Nothing;
    std::function<void(MainWindow&)> act = {};
    std::function<bool(MainWindow&)> checked = {};
    const char* group = "";
};

using Window = MainWindow;

Row line(const char* menu) {
    return {.menu = menu, .name = ""};
}

Row paletteRow(const char* name, const char* words, PaletteKind kind) {
    return {
        .menu = "&View",
        .name = name,
        .words = words,
        .act = [kind](Window& w) { w.choosePalette(kind); },
        .checked = [kind](Window& w) { return w.preferences().palette == kind; },
        .group = "palette"};
}

Row layerRow(const char* name, const char* words, const char* key, bool MapLayers::*layer) {
    return {
        .menu = "P&lan",
        .name = name,
        .words = words,
        .key = key,
        .needs = Needs::Book,
        .act = [layer](Window& w) { w.showLayer(layer, !(w.preferences().layers.*layer)); },
        .checked = [layer](Window& w) { return w.preferences().layers.*layer; }};
}

Row depthRow(const char* name, const char* words, Unit unit) {
    return {
        .menu = "&Units",
        .name = name,
        .words = words,
        .act = [unit](Window& w) { w.setDepthUnit(unit); },
        .checked = [unit](Window& w) { return w.preferences().units.depth == unit; },
        .group = "depthUnit"};
}

Row distanceRow(const char* name, const char* words, Unit unit) {
    return {
        .menu = "&Units",
        .name = name,
        .words = words,
        .act = [unit](Window& w) { w.setDistanceUnit(unit); },
        .checked = [unit](Window& w) { return w.preferences().units.distance == unit; },
        .group = "distanceUnit"};
}

/// A change of whole lines of the page.
Row lineRow(const char* name, const char* words, const char* key, void (*edit)(PageEditor&)) {
    return {
        .menu = "&Page",
        .name = name,
        .words = words,
        .key = key,
        .needs = Needs::WritableBook,
        .act = [edit](Window& w) { w.editLines(edit); }};
}

Row panelRow(const char* name, const char* words, const char* key, Desk::Panel panel) {
    const auto shown = [panel](Window& w) {
        return w.desk() != nullptr && !w.desk()->panel(panel).isHidden();
    };
    return {
        .menu = "&View",
        .name = name,
        .words = words,
        .key = key,
        .needs = Needs::Book,
        .act = [panel, shown](Window& w) { w.showPanel(panel, !shown(w)); },
        .checked = shown};
}

Row lookRow(const char* name, const char* words, const char* key, bool northUp) {
    return {
        .menu = "P&lan",
        .name = name,
        .words = words,
        .key = key,
        .needs = Needs::Map,
        .act = [northUp](Window& w) { w.setNorthUp(northUp); },
        .checked =
            [northUp](Window& w) {
                return w.desk() != nullptr && w.desk()->plan().isNorthUp() == northUp;
            },
        .group = "upright"};
}

// clang-format off
const std::vector<Row>& rows() { // NOLINT(readability-function-size): a table
    using enum Needs;
    static const std::vector<Row> table = {
        {"&Book", "newBook", "&New book…", "Ctrl+N", Nothing, &Window::askNewBook},
        {"&Book", "openBook", "&Open…", "Ctrl+O", Nothing, &Window::askOpenBook},
        {"&Book", "openAgain", "Open a&gain", "", Book, &Window::openAgain},
        {"&Book", "recentBooks", "&Recent books", "", Nothing, {}},
        {"&Book", "saveCopy", "Save a &copy…", "", Book, &Window::askSaveCopy},
        {"&Book", "saveTables", "Save as ta&bles…", "", Book, &Window::askSaveTables},
        {"&Book", "closeBook", "C&lose the book", "Ctrl+W", Book, [](Window& w) { w.closeBook(); }},
        line("&Book"),
        {"&Book", "import", "&Import files…", "Ctrl+I", WritableBook, &Window::askImport},
        {"&Book", "export", "&Export the map…", "Ctrl+E", Map, &Window::askExport},
        {"&Book", "print", "&Print…", "Ctrl+P", Map, &Window::askPrint},
        {"&Book", "stopWork", "S&top reading or writing files", "Ctrl+.", Book, &Window::stopWork},
        line("&Book"),
        {"&Book", "quit", "&Quit", "Ctrl+Q", Nothing, [](Window& w) { w.close(); }},
        {"&Page", "undo", "&Undo", "Ctrl+Z", Book, &Window::undo},
        {"&Page", "redo", "&Redo", "Ctrl+Shift+Z", Book, &Window::redo},
        line("&Page"),
        {"&Page", "newPage", "&New page", "Ctrl+Shift+N", WritableBook, &Window::newPage},
        {"&Page", "pageBefore", "Pa&ge before", "Ctrl+PgUp", Book, [](Window& w) { w.stepPage(-1); }},
        {"&Page", "pageAfter", "Ne&xt page", "Ctrl+PgDown", Book, [](Window& w) { w.stepPage(1); }},
        {"&Page", "answer", "&Answer the question", "F2", WritableBook, &Window::answerFirst},
        {"&Page", "find", "&Find in the book…", "Ctrl+F", Book, &Window::findInBook},
        {"&Page", "nextQuestion", "Next &line to look at", "F4", Book, &Window::nextQuestion},
        {"&Page", "teachWord", "Teach a &word…", "Ctrl+Shift+W", WritableBook, &Window::teachWord},
        {"&Page", "swimPlace", "&Place of the swim…", "Ctrl+Shift+S", WritableBook, &Window::askSwimPlace},
        {"&Page", "levelMark", "L&evel mark of the water…", "Ctrl+Shift+L", WritableBook, &Window::askLevelMark},
        {"&Page", "privateThings", "Pr&ivate spots and marks…", "Ctrl+Shift+V", WritableBook, &Window::askPrivateThings},
        line("&Page"),
        lineRow("lineUp", "&Move the line up", "Alt+Up", line_command::moveUp),
        lineRow("lineDown", "Mo&ve the line down", "Alt+Down", line_command::moveDown),
        lineRow("lineTwice", "The line &twice", "Ctrl+D", line_command::duplicate),
        lineRow("lineOut", "Ta&ke the line out", "Ctrl+L", line_command::takeOut),
        lineRow("lineBelow", "New line &below", "Ctrl+Return; Ctrl+Enter", line_command::newBelow),
        lineRow("lineAbove", "New line ab&ove", "Ctrl+Shift+Return", line_command::newAbove),
        lookRow("fromBank", "As seen from the &bank", "Ctrl+B", false),
        lookRow("northUp", "&North up", "Ctrl+T", true),
        line("P&lan"),
        {"P&lan", "showAll", "Show &all of it", "Ctrl+0", Map, &Window::showAll},
        {"P&lan", "zoomIn", "N&earer", "Ctrl++; Ctrl+=", Map, &Window::zoomIn},
        {"P&lan", "zoomOut", "&Farther", "Ctrl+-", Map, &Window::zoomOut},
        line("P&lan"),
        {"P&lan", "aimLeft", "Next aim to the &left", "Alt+Left", Map, [](Window& w) { w.stepAim(-1); }},
        {"P&lan", "aimRight", "Next aim to the &right", "Alt+Right", Map, [](Window& w) { w.stepAim(1); }},
        line("P&lan"),
        layerRow("layerCasts", "&Casts", "Ctrl+Shift+C", &MapLayers::casts),
        layerRow("layerReadings", "Rea&dings", "Ctrl+Shift+R", &MapLayers::readings),
        layerRow("layerDepths", "Depth nu&mbers", "Ctrl+Shift+D", &MapLayers::depths),
        layerRow("layerContours", "C&ontours", "Ctrl+Shift+O", &MapLayers::contours),
        layerRow("layerShading", "&Shading", "Ctrl+Shift+H", &MapLayers::shading),
        layerRow("layerRings", "Rin&gs", "Ctrl+Shift+G", &MapLayers::rings),
        layerRow("layerMarks", "Mar&ks", "Ctrl+Shift+K", &MapLayers::marks),
        layerRow("layerSpots", "S&pots", "Ctrl+Shift+P", &MapLayers::spots),
        layerRow("layerFixes", "Fi&xes from elsewhere", "Ctrl+Shift+X", &MapLayers::fixes),
        {"&View", "goPage", "To the &page", "F5", Book, &Window::goToPage},
        {"&View", "goPlan", "To the p&lan", "F6", Book, &Window::goToPlan},
        {"&View", "goSideView", "To the &side view", "F7", Book, &Window::goToSideView},
        {"&View", "goPlace", "To the c&hosen place", "Shift+F7", Book, &Window::goToPlace},
        line("&View"),
        panelRow("panelPage", "Page of &notes", "Ctrl+1", Desk::Panel::Page),
        panelRow("panelSideView", "S&ide view", "Ctrl+2", Desk::Panel::SideView),
        panelRow("panelPlace", "&Chosen place", "Ctrl+3", Desk::Panel::ChosenPlace),
        {"&View", "allPanels", "These three &back", "F9", Book, &Window::showAllPanels},
        line("&View"),
        panelRow("panelAims", "Ai&ms and casts", "Ctrl+4", Desk::Panel::Aims),
        panelRow("panelShorthand", "&Your shorthand", "Ctrl+5", Desk::Panel::Shorthand),
        line("&View"),
        paletteRow("paletteLight", "Li&ght", PaletteKind::Light),
        paletteRow("paletteDark", "&Dark", PaletteKind::Dark),
        paletteRow("paletteNight", "Night (&red)", PaletteKind::Night),
        line("&View"),
        {"&View", "textLarger", "L&arger text", "Alt++; Alt+=", Nothing, [](Window& w) { w.stepText(1); }},
        {"&View", "textSmaller", "Smaller te&xt", "Alt+-", Nothing, [](Window& w) { w.stepText(-1); }},
        {"&View", "textUsual", "&Usual text", "Alt+0", Nothing, [](Window& w) { w.setTextScale(1.0); }},
        depthRow("depthFeet", "Depths in &feet", Unit::Foot),
        depthRow("depthMetres", "Depths in &metres", Unit::Metre),
        line("&Units"),
        distanceRow("distanceWraps", "Distances in &wraps", Unit::Wrap),
        distanceRow("distanceYards", "Distances in &yards", Unit::Yard),
        distanceRow("distanceMetres", "Distances in m&etres", Unit::Metre),
        distanceRow("distanceFeet", "Distances in fee&t", Unit::Foot),
        {"&Help", "help", "&Help", "F1", Nothing, &Window::showHelp},
        {"&Help", "practice", "&Practice water and tour", "", Nothing, &Window::openPractice},
        {"&Help", "keys", "&Keys…", "Ctrl+F1", Nothing, &Window::showKeys},
    };
    return table;
}
// clang-format on

QString words(const char* text) {
    return QCoreApplication::translate("bedlore::Actions", text);
}

/// The letter that an underlined entry takes, as it stands on its key.
QString letterOf(const QString& entry) {
    const qsizetype at = entry.indexOf(u'&');
    return at >= 0 && at + 1 < entry.size() ? QString(entry[at + 1].toUpper()) : QString();
}

QString withoutLetter(QString entry) {
    return entry.remove(u'&').remove(QStringLiteral("…"));
}

bool isPossible(MainWindow& window, Needs needs) {
    Desk* desk = window.desk();
    switch (needs) {
    case Needs::Nothing:
        return true;
    case Needs::Book:
        return desk != nullptr;
    case Needs::WritableBook:
        return desk != nullptr && desk->document().isWritable();
    case Needs::Map:
        return desk != nullptr && desk->builder().picture() != nullptr;
    }
    return false;
}

/// "Undo: typed line 12"
void wordHistory(MainWindow& window) {
    Desk* desk = window.desk();
    const bool typing = desk != nullptr && desk->page().hasUnkept();
    QAction* undo = window.action(QStringLiteral("undo"));
    QAction* redo = window.action(QStringLiteral("redo"));
    const QString back =
        typing ? words("typing") : (desk != nullptr ? desk->document().undoWords() : QString());
    const QString again = desk != nullptr ? desk->document().redoWords() : QString();
    undo->setText(back.isEmpty() ? words("&Undo") : words("&Undo: %1").arg(back));
    redo->setText(again.isEmpty() ? words("&Redo") : words("&Redo: %1").arg(again));
    undo->setEnabled(desk != nullptr && (typing || desk->document().canUndo()));
    redo->setEnabled(desk != nullptr && !typing && desk->document().canRedo());
}

} // namespace

void makeActions(MainWindow& window) {
    std::map<QString, QMenu*> menus;
    std::map<QString, QActionGroup*> groups;
    for (std::size_t i = 0; i < rows().size(); ++i) {
        const Row& row = rows()[i];
        const QString title = words(row.menu);
        QMenu*& menu = menus[title];
        if (menu == nullptr) {
            menu = window.menuBar()->addMenu(title);
        }
        if (*row.name == '\0') {
            menu->addSeparator();
            continue;
        }
        auto* action = new QAction(words(row.words), &window);
        action->setObjectName(QString::fromLatin1(row.name));
        action->setData(static_cast<qulonglong>(i));
        if (*row.key != '\0') {
            action->setShortcuts(QKeySequence::listFromString(QString::fromLatin1(row.key)));
        }
        action->setCheckable(row.checked != nullptr);
        const QString group = QString::fromLatin1(row.group);
        if (!group.isEmpty()) {
            QActionGroup*& its = groups[group];
            if (its == nullptr) {
                its = new QActionGroup(&window);
            }
            its->addAction(action);
        }
        menu->addAction(action);
        if (row.act) {
            QObject::connect(
                action, &QAction::triggered, &window, [&window, act = row.act] { act(window); });
        }
    }
}

void enableActions(MainWindow& window) {
    // With every letter that he types: not looked for by name.
    for (QObject* child : window.children()) {
        auto* action = qobject_cast<QAction*>(child);
        if (action == nullptr || !action->data().isValid()) {
            continue;
        }
        const Row& row = rows()[static_cast<std::size_t>(action->data().toULongLong())];
        action->setEnabled(isPossible(window, row.needs));
        if (row.checked) {
            action->setChecked(row.checked(window));
        }
    }
    wordHistory(window);
}

std::vector<KeyRow> keyRows(const MainWindow& window) {
    std::vector<KeyRow> keys;
    for (const Row& row : rows()) {
        const QAction* action = window.action(QString::fromLatin1(row.name));
        if (*row.name == '\0' || action == nullptr) {
            continue;
        }
        const QString menu = words(row.menu);
        const QString entry = words(row.words);
        const QString key = action->shortcut().toString(QKeySequence::NativeText);
        keys.push_back(
            {.where = withoutLetter(menu),
             .key = key.isEmpty() ? words("Alt+%1, then %2").arg(letterOf(menu), letterOf(entry))
                                  : key,
             .words = withoutLetter(entry)});
    }
    for (const auto& part :
         {PageEditor::keys(), PlanView::keys(), SectionView::keys(), TourPanel::keys()}) {
        keys.insert(keys.end(), part.begin(), part.end());
    }
    return keys;
}

} // namespace bedlore
