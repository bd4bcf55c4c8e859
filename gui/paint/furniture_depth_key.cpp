// SPDX-License-Identifier: MIT
#include "gui/paint/depth_key.hpp"
#include "gui/paint/furniture_painter.hpp"

#include <QPainter>

#include <algorithm>
#include <cmath>

// Where the key to the colours of depth stands.

namespace bedlore {

namespace {

/// How far from the middle to look, nearest first, until `suits` gives true.
template <class Suits>
bool isFoundAside(double most, double step, const Suits& suits) {
    const int steps = static_cast<int>(std::ceil(most / step));
    for (int i = 0; i < steps; ++i) {
        if (suits(i * step) || suits(-i * step)) {
            return true;
        }
    }
    return false;
}

} // namespace

void Furniture::placeDepthKey() {
    if (!depthKeyWords(map_).isEmpty() && !placeWholeDepthKey()) {
        placeSmallDepthKey();
    }
}

// At the foot between scale bar and north, as near the middle as is free; above them where it is
// narrow.
bool Furniture::placeWholeDepthKey() {
    const double height = depthKeyHeight(map_, style_, fonts_.note);
    const double s = size_;
    const QRectF& w = view_.window;
    const double words = QFontMetricsF(fonts_.note).horizontalAdvance(depthKeyWords(map_));
    QRectF area;
    const auto sheet = [&] { return area.adjusted(-10.0 * s, -4.0 * s, 10.0 * s, 4.0 * s); };
    const auto isPlacedInRow = [&](double width, double lift) {
        return isFoundAside(0.5 * w.width(), 6.0 * s, [&](double aside) {
            area = QRectF(0.0, 0.0, std::max(width, words), height);
            area.moveCenter(
                QPointF(w.center().x() + aside, w.bottom() - 8.0 * s - 0.5 * height - lift));
            return w.contains(sheet()) && isFree(sheet()) && !liesOnBed(sheet());
        });
    };
    const double wide = 150.0 * s;
    const double narrow = 100.0 * s;
    const bool found = 4.0 * height < w.height() &&
                       (isPlacedInRow(wide, 0.0) || isPlacedInRow(narrow, 0.0) ||
                        isPlacedInRow(narrow, height) || isPlacedInRow(narrow, 2.0 * height));
    if (!found) {
        return false;
    }
    take(sheet());
    const double room = metrics_.height(); // the last number may reach beyond its colours
    const QRectF box = sheet().adjusted(-room, 0.0, room, 0.0);
    draw(box, [this, area, paper = sheet()](QPainter& painter, const auto& fonts) {
        paintSheet(painter, paper);
        paintDepthKey(painter, map_, style_, fonts.note, area);
    });
    return true;
}

// One row, wherever it leaves the bed free, from the foot upwards; where it does nowhere, on the
// bed: colours say nothing without it.
void Furniture::placeSmallDepthKey() {
    const double s = size_;
    const QSizeF size = smallDepthKeySize(map_, style_, fonts_.note);
    const QRectF& w = view_.window;
    QRectF sheet(QPointF(), size + QSizeF(12.0 * s, 6.0 * s));
    const auto isFound = [&](bool onBed) {
        const double step = 0.5 * size.height();
        const int rows = static_cast<int>(w.height() / step);
        for (int row = 0; row < rows; ++row) {
            const double middle = w.bottom() - 4.0 * s - row * step - 0.5 * sheet.height();
            const bool found = isFoundAside(0.5 * w.width(), 6.0 * s, [&](double aside) {
                sheet.moveCenter(QPointF(w.center().x() + aside, middle));
                return w.contains(sheet) && isFree(sheet) && (onBed || !liesOnBed(sheet));
            });
            if (found) {
                return true;
            }
        }
        return false;
    };
    if (!isFound(false) && !isFound(true)) {
        return;
    }
    take(sheet);
    QRectF area(QPointF(), size);
    area.moveCenter(sheet.center());
    draw(sheet, [this, area, sheet](QPainter& painter, const auto& fonts) {
        paintSheet(painter, sheet);
        paintSmallDepthKey(painter, map_, style_, fonts.note, area);
    });
}

} // namespace bedlore
