// SPDX-License-Identifier: MIT
#include "gui/widgets/wrapped_row.hpp"

#include <algorithm>

namespace bedlore {

WrappedRow::~WrappedRow() {
    qDeleteAll(items_);
}

void WrappedRow::addItem(QLayoutItem* item) {
    items_.append(item);
}

int WrappedRow::count() const {
    return static_cast<int>(items_.size());
}

QLayoutItem* WrappedRow::itemAt(int index) const {
    return items_.value(index);
}

QLayoutItem* WrappedRow::takeAt(int index) {
    return index >= 0 && index < items_.size() ? items_.takeAt(index) : nullptr;
}

int WrappedRow::heightForWidth(int width) const {
    return arrange(QRect(0, 0, width, 0), Move::No);
}

QSize WrappedRow::sizeHint() const {
    return minimumSize();
}

QSize WrappedRow::minimumSize() const {
    QSize widest;
    for (const QLayoutItem* item : items_) {
        widest = widest.expandedTo(item->sizeHint());
    }
    return widest;
}

void WrappedRow::setGeometry(const QRect& area) {
    QLayout::setGeometry(area);
    static_cast<void>(arrange(area, Move::Yes));
}

int WrappedRow::arrange(const QRect& area, Move move) const {
    int x = area.left();
    int y = area.top();
    int rowHeight = 0;
    for (QLayoutItem* item : items_) {
        const QSize size = item->sizeHint();
        if (x > area.left() && x + size.width() > area.right() + 1) {
            x = area.left();
            y += rowHeight + spacing();
            rowHeight = 0;
        }
        if (move == Move::Yes) {
            item->setGeometry(QRect(QPoint(x, y), size));
        }
        x += size.width() + spacing();
        rowHeight = std::max(rowHeight, size.height());
    }
    return y + rowHeight - area.top();
}

} // namespace bedlore
