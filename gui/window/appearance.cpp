// SPDX-License-Identifier: MIT
#include "gui/window/appearance.hpp"

#include "gui/widgets/ink_caret.hpp"

#include <QApplication>
#include <QFontDatabase>
#include <QPalette>
#include <QStyleFactory>

namespace bedlore {

namespace {

constexpr double basePoints = 10.5;
constexpr double notePoints = 9.5;
constexpr double figurePoints = 30.0;

QPalette paletteOf(const Palette& c) {
    QPalette p;
    p.setColor(QPalette::Window, c.paper);
    p.setColor(QPalette::WindowText, c.ink);
    p.setColor(QPalette::Base, c.paper);
    p.setColor(QPalette::AlternateBase, c.panel);
    p.setColor(QPalette::Text, c.ink);
    p.setColor(QPalette::PlaceholderText, c.softInk);
    p.setColor(QPalette::Button, c.panel);
    p.setColor(QPalette::ButtonText, c.ink);
    p.setColor(QPalette::Highlight, c.selection);
    p.setColor(QPalette::HighlightedText, c.ink);
    p.setColor(QPalette::ToolTipBase, c.panel);
    p.setColor(QPalette::ToolTipText, c.ink);
    p.setColor(QPalette::Link, c.accent);
    p.setColor(QPalette::Light, c.panel);
    p.setColor(QPalette::Midlight, c.panel);
    p.setColor(QPalette::Mid, c.line);
    p.setColor(QPalette::Dark, c.line);
    p.setColor(QPalette::Shadow, c.line);
    for (const QPalette::ColorRole role :
         {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        QColor faded = c.softInk;
        faded.setAlphaF(0.6F);
        p.setColor(QPalette::Disabled, role, faded);
    }
    return p;
}

// %1 paper, %2 panel, %3 line, %4 ink, %5 soft ink, %6 accent, %7 warn, %8 selection,
// %9 note size, %10 figure size, %11 base size [pt]. Spacing in steps of 4 px.
const auto sheet = QStringLiteral(R"(
QMenuBar, QMenu, QToolTip, QLabel, QToolButton, QPushButton, QCheckBox, QRadioButton, QComboBox, QHeaderView, QTabBar { font-size: %11pt; }
QMenuBar { background: %1; color: %4; padding: 2px 8px; border: none; }
QMenuBar::item { padding: 4px 8px; background: transparent; border-radius: 4px; }
QMenuBar::item:selected { background: %8; }
QMenu { background: %1; color: %4; border: 1px solid %3; padding: 4px; }
QMenu::item { padding: 4px 24px 4px 24px; border-radius: 4px; }
QMenu::item:selected { background: %8; }
QMenu::item:disabled { color: %5; }
QMenu::separator { height: 1px; background: %3; margin: 4px 8px; }
QToolTip { background: %2; color: %4; border: 1px solid %3; padding: 4px; }
QSplitter::handle { background: %3; }
QToolButton { border: 1px solid transparent; border-radius: 4px; padding: 3px 7px; color: %4; background: transparent; }
QToolButton:hover, QToolButton:focus { background: %8; }
QToolButton:disabled { color: %5; }
QToolButton:focus { border-color: %6; }
QCheckBox:focus, QRadioButton:focus { color: %6; text-decoration: underline; }
QComboBox:focus, QSpinBox:focus, QDoubleSpinBox:focus { border: 1px solid %6; }
QToolButton::menu-indicator { image: none; width: 0; }
QPushButton { border: 1px solid %3; border-radius: 4px; padding: 4px 16px; color: %4; background: %1; min-height: 20px; }
QPushButton:hover { background: %8; }
QPushButton:focus { border-color: %6; }
QPushButton:default { border-color: %6; color: %6; }
QPushButton:disabled { color: %5; }
QCheckBox::indicator, QRadioButton::indicator { width: 14px; height: 14px; border: 1px solid %5; background: %1; }
QCheckBox::indicator { border-radius: 3px; }
QRadioButton::indicator { border-radius: 8px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked { background: %6; border-color: %6; }
QCheckBox::indicator:focus, QRadioButton::indicator:focus { border: 2px solid %6; }
QCheckBox::indicator:disabled, QRadioButton::indicator:disabled { border-color: %3; }
QDialogButtonBox { dialogbuttonbox-buttons-have-icons: 0; }
QLineEdit { border: 1px solid %3; border-radius: 4px; padding: 4px 8px; background: %1; selection-background-color: %8; }
QLineEdit:focus { border-color: %6; }
QHeaderView::section { background: %1; color: %5; border: none; border-bottom: 1px solid %3; padding: 4px 8px; }
QTableView, QTreeView { background: %1; border: 1px solid %1; selection-background-color: %8; selection-color: %4; }
QTableView::item { padding: 2px 8px; }
QTreeView::item { padding: 2px 4px; }
QTreeView:focus, QTableView:focus { border: 1px solid %6; }
#aimsPanel, #shorthandPanel { border-top: 1px solid %3; }
#shorthandWords, #swimFault, #levelFault { color: %7; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar::handle:vertical { background: %3; min-height: 32px; border-radius: 3px; margin: 2px; }
QScrollBar::add-line, QScrollBar::sub-line { height: 0; width: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle:horizontal { background: %3; min-width: 32px; border-radius: 3px; margin: 2px; }
#headerLine { border-bottom: 1px solid %3; border-top: 1px solid %3; }
#headerLine QToolButton { font-size: %11pt; }
#choiceArrow { color: %5; }
#foot { border-top: 1px solid %3; }
#foot QLabel { color: %5; font-size: %9pt; }
#foot #pointerReadout { color: %4; }
#messageBar { background: %8; border-bottom: 1px solid %3; }
#messageBar[warning="true"] #message { color: %7; }
#questionStrip { border-top: 1px solid %3; background: %2; }
#question, #pageWaits { color: %7; }
#pageWaits { border-top: 1px solid %3; background: %2; padding: 8px 16px; }
#placePanel, #placeInside { background: %2; }
#placeScroll { background: %2; border: 1px solid %2; }
#placeScroll:focus { border: 1px solid %6; }
#tourPanel { background: %2; border-bottom: 1px solid %3; }
#tourTitle { color: %5; font-size: %9pt; letter-spacing: 1px; }
#tourPraise { color: %6; }
#tourRemark { color: %7; }
#tourCaution { color: %5; font-size: %9pt; }
#placeTitle, #placeReachTitle { color: %5; font-size: %9pt; letter-spacing: 1px; }
#placeHint, #placeLevel, #placeMeasure, #visitWords, #shorthandEmpty, #aimsGuessed, #swimTaken, #swimChanges, #swimPrivate, #levelTaken, #levelChanges { color: %5; font-size: %9pt; }
#visitWords { padding: 16px; }
#placeDepth { font-size: %10pt; color: %4; }
#placeHowFar { font-size: %10pt; color: %4; }
#findPanel { border-bottom: 1px solid %3; background: %2; }
#findCount, #printKeys { color: %5; font-size: %9pt; }
#printSaid[warning="true"] { color: %7; }
#dropHint { background: %2; border: 1px solid %6; border-radius: 4px; padding: 24px; color: %4; font-size: %11pt; }
QProgressBar { border: 1px solid %3; border-radius: 4px; background: %1; color: %4; text-align: center; min-height: 20px; }
QProgressBar::chunk { background: %8; }
QPlainTextEdit, QListView { background: %1; color: %4; selection-background-color: %8; selection-color: %4; }
#importSummary[warning="true"], #importBadWords, #importAgainWords { color: %7; }
#startTitle { font-size: %10pt; }
#startWords, #startPracticeWords { color: %5; }
QLabel[heading="true"] { color: %5; font-size: %9pt; letter-spacing: 1px; }
)");

/// Figures are large already: they grow more slowly than what stands beside them.
double figureScale(double textScale) {
    return 1.0 + 0.4 * (textScale - 1.0);
}

QString points(double size, double scale) {
    return QString::number(size * scale, 'f', 1);
}

} // namespace

QFont controlFont(double textScale) {
    QFont font = QFontDatabase::systemFont(QFontDatabase::GeneralFont);
    font.setPointSizeF(basePoints * textScale);
    return font;
}

QFont pageFont(double textScale) {
    QFont font = QFontDatabase::systemFont(QFontDatabase::FixedFont);
    font.setPointSizeF(basePoints * textScale);
    return font;
}

void dress(PaletteKind kind, double textScale) {
    const Palette& c = palette(kind);
    QApplication::setStyle(new CaretlessStyle(QStyleFactory::create(QStringLiteral("Fusion"))));
    QApplication::setPalette(paletteOf(c));
    QApplication::setFont(controlFont(textScale));
    const QString filled = sheet.arg(
        c.paper.name(),
        c.panel.name(),
        c.line.name(),
        c.ink.name(),
        c.softInk.name(),
        c.accent.name(),
        c.warn.name(),
        c.selection.name(),
        points(notePoints, textScale));
    auto* application = qobject_cast<QApplication*>(QCoreApplication::instance());
    if (application->findChild<InkCaret*>() == nullptr) {
        new InkCaret(application);
    }
    application->setStyleSheet(
        QString(filled)
            .replace(QStringLiteral("%10"), points(figurePoints, figureScale(textScale)))
            .replace(QStringLiteral("%11"), points(basePoints, textScale)));
}

} // namespace bedlore
