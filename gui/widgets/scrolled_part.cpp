// SPDX-License-Identifier: MIT
#include "gui/widgets/scrolled_part.hpp"

#include <QApplication>
#include <QLayout>
#include <QScreen>
#include <QScrollBar>

#include <algorithm>

namespace bedlore {

namespace {

constexpr double usualPoints = 10.5;
constexpr QSize windowFrame(16, 40); // what the desktop draws around a window, at the most
constexpr int leastRows = 3;         // that are seen of what is scrolled

} // namespace

ScrolledPart::ScrolledPart(
    QWidget* inside, const char* objectName, const QString& spoken, QWidget* parent)
    : QScrollArea(parent) {
    setObjectName(QString::fromLatin1(objectName));
    setAccessibleName(spoken);
    setFocusPolicy(spoken.isEmpty() ? Qt::NoFocus : Qt::StrongFocus);
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setWidget(inside);
    // What stands behind it shows through.
    viewport()->setAutoFillBackground(false);
    inside->setAutoFillBackground(false);
}

int ScrolledPart::barWidth() const {
    return verticalScrollBar()->sizeHint().width();
}

int ScrolledPart::heightAt(int width) const {
    const QSize least = widget()->minimumSizeHint();
    const int inside = std::max(width, least.width());
    const int height = widget()->layout()->totalHeightForWidth(inside);
    // Too narrow for its words, it has a bar below them.
    const int bar = width < least.width() ? horizontalScrollBar()->sizeHint().height() : 0;
    return std::max(height, widget()->layout()->totalMinimumSize().height()) + bar;
}

QSize ScrolledPart::sizeHint() const {
    const int width = widget()->sizeHint().width() + barWidth();
    return {width, widget()->sizeHint().height()};
}

QSize ScrolledPart::minimumSizeHint() const {
    const int rows = leastRows * fontMetrics().lineSpacing();
    return {10 * fontMetrics().averageCharWidth() + barWidth(), rows};
}

QSize roomOnScreen(const QWidget& window) {
    return window.screen()->availableGeometry().size() - windowFrame;
}

void resizeForText(QWidget& window, QSize atUsualText) {
    const double scale = std::max(1.0, QApplication::font().pointSizeF() / usualPoints);
    const QSize wanted(
        static_cast<int>(atUsualText.width() * scale),
        static_cast<int>(atUsualText.height() * scale));
    window.resize(wanted.boundedTo(roomOnScreen(window)));
}

void growToShow(QWidget& dialog, const ScrolledPart& part) {
    QLayout& rows = *dialog.layout();
    rows.activate();
    const QSize room = roomOnScreen(dialog);
    const QSize hint = rows.totalSizeHint();
    const int width = std::min(std::max(dialog.width(), hint.width()), room.width());
    const QMargins edge = rows.contentsMargins();
    const int others = hint.height() - part.sizeHint().height();
    const int height = others + part.heightAt(width - edge.left() - edge.right());
    dialog.resize(width, std::min(std::max(dialog.height(), height), room.height()));
}

} // namespace bedlore
