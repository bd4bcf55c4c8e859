// SPDX-License-Identifier: MIT
#include "gui/panels/page_layout.hpp"

#include <QTextBlock>

#include <cstddef>
#include <utility>

namespace bedlore {

bool PageLayout::setRoomBelow(std::vector<double> room) {
    if (room == room_) {
        return false;
    }
    room_ = std::move(room);
    Q_EMIT documentSizeChanged(documentSize()); // the scroll bar counts heights
    requestUpdate();
    return true;
}

double PageLayout::roomBelow(const QTextBlock& block) const {
    const auto line = static_cast<std::size_t>(block.blockNumber());
    return block.isValid() && line < room_.size() ? room_[line] : 0.0;
}

QRectF PageLayout::blockBoundingRect(const QTextBlock& block) const {
    QRectF rect = QPlainTextDocumentLayout::blockBoundingRect(block);
    if (block.isValid() && block.isVisible()) {
        rect.setHeight(rect.height() + roomBelow(block));
    }
    return rect;
}

} // namespace bedlore
