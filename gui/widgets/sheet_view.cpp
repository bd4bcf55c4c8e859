// SPDX-License-Identifier: MIT
#include "gui/widgets/sheet_view.hpp"

#include "gui/paint/red_light.hpp"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

constexpr int around = 16;         // of the sheet [px]
constexpr double mostNearer = 4.0; // a picture of the sheet is held: it must not grow without end
constexpr double step = 1.25;

} // namespace

SheetView::SheetView(QWidget* parent)
    : QAbstractScrollArea(parent) {
    setObjectName(QStringLiteral("sheetView"));
    setAccessibleName(tr("The sheet as it will be printed"));
    setFocusPolicy(Qt::StrongFocus);
    setFrameShape(QFrame::NoFrame);
    setMinimumSize(200, 200);
}

void SheetView::setSheet(std::shared_ptr<const MapDrawing> map, const SheetOptions& options) {
    map_ = std::move(map);
    options_ = options;
    settle();
}

void SheetView::setColours(PaletteKind kind) {
    colours_ = kind;
    settle();
}

double SheetView::fittingScale() const {
    const QSizeF paper = paperSize(options_.paper);
    const QSize room = maximumViewportSize() - QSize(2 * around, 2 * around);
    return std::max(
        0.1,
        std::min(
            static_cast<double>(room.width()) / paper.width(),
            static_cast<double>(room.height()) / paper.height()));
}

double SheetView::scale() const {
    return fittingScale() * nearer_;
}

QSize SheetView::sheetPixels() const {
    return (paperSize(options_.paper) * scale()).toSize();
}

void SheetView::zoomBy(double factor) {
    nearer_ = std::clamp(nearer_ * factor, 1.0, mostNearer);
    settle();
}

void SheetView::fit() {
    nearer_ = 1.0;
    settle();
}

/// Draws the sheet anew and lets the scroll bars reach all of it.
void SheetView::settle() {
    const QSize whole = sheetPixels() + QSize(2 * around, 2 * around);
    const QSize shown = maximumViewportSize();
    for (const auto& [bar, size, page] :
         {std::tuple(horizontalScrollBar(), whole.width(), shown.width()),
          std::tuple(verticalScrollBar(), whole.height(), shown.height())}) {
        bar->setRange(0, std::max(0, size - page));
        bar->setPageStep(page);
        bar->setSingleStep(32);
    }
    picture_ = QPixmap();
    if (map_ != nullptr) {
        const double density = devicePixelRatioF();
        picture_ = QPixmap(sheetPixels() * density);
        picture_.setDevicePixelRatio(density);
        picture_.fill(Qt::white);
        QPainter painter(&picture_);
        painter.scale(scale(), scale());
        paintSheet(painter, *map_, paperSize(options_.paper), options_);
        painter.end();
        if (colours_ == PaletteKind::Night) {
            picture_ = QPixmap::fromImage(inRedLight(picture_.toImage()));
        }
    }
    viewport()->update();
}

void SheetView::paintEvent(QPaintEvent* /*event*/) {
    if (!picture_.isNull() && picture_.devicePixelRatio() != devicePixelRatioF()) {
        settle(); // it was moved to another screen
    }
    QPainter painter(viewport());
    const QSize sheet = sheetPixels();
    const QSize room = viewport()->size();
    const int left = sheet.width() + 2 * around <= room.width()
                         ? (room.width() - sheet.width()) / 2
                         : around - horizontalScrollBar()->value();
    const int top = sheet.height() + 2 * around <= room.height()
                        ? (room.height() - sheet.height()) / 2
                        : around - verticalScrollBar()->value();
    const QRect area(QPoint(left, top), sheet);
    if (picture_.isNull()) {
        painter.setPen(palette().color(QPalette::Mid));
        painter.drawRect(area);
        painter.setPen(palette().color(QPalette::Text));
        painter.drawText(viewport()->rect(), Qt::AlignCenter, tr("The sheet is being drawn …"));
        return;
    }
    painter.drawPixmap(area.topLeft(), picture_);
    painter.setPen(palette().color(hasFocus() ? QPalette::Link : QPalette::Mid));
    painter.drawRect(area.adjusted(-1, -1, 0, 0));
}

void SheetView::resizeEvent(QResizeEvent* event) {
    QAbstractScrollArea::resizeEvent(event);
    settle();
}

void SheetView::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal:
        zoomBy(step);
        break;
    case Qt::Key_Minus:
        zoomBy(1.0 / step);
        break;
    case Qt::Key_0:
        fit();
        break;
    default:
        QAbstractScrollArea::keyPressEvent(event);
    }
}

void SheetView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers() == Qt::ControlModifier) {
        zoomBy(event->angleDelta().y() > 0 ? step : 1.0 / step);
        event->accept();
    } else {
        QAbstractScrollArea::wheelEvent(event);
    }
}

void SheetView::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    viewport()->update();
}

void SheetView::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    viewport()->update();
}

} // namespace bedlore

#include "moc_sheet_view.cpp"
