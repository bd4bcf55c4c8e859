// SPDX-License-Identifier: MIT
#include "gui/panels/page_margin.hpp"

#include <QPaintEvent>
#include <QPainter>
#include <QTextBlock>
#include <QTextLayout>

namespace bedlore {

PageMargin::PageMargin(PageEditor& editor)
    : QWidget(&editor)
    , editor_(editor) {
    setObjectName(QStringLiteral("pageMargin"));
}

void PageMargin::paintEvent(QPaintEvent* event) {
    const Palette& colours = bedlore::palette(editor_.colours_);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(event->rect(), colours.paper);
    painter.setBrush(colours.warn);
    painter.setPen(Qt::NoPen);
    // Where the keys go: beside the line under the cursor.
    if (editor_.hasFocus()) {
        const QRectF current = editor_.blockBoundingGeometry(editor_.textCursor().block())
                                   .translated(editor_.contentOffset());
        painter.fillRect(QRectF(0.0, current.top(), 3.0, current.height()), colours.accent);
    }
    QTextBlock block = editor_.firstVisibleBlock();
    while (block.isValid()) {
        const QRectF area =
            editor_.blockBoundingGeometry(block).translated(editor_.contentOffset());
        if (area.top() > event->rect().bottom()) {
            break;
        }
        const bool asks = !editor_.noteOf(block.blockNumber()).question.isEmpty();
        if (asks && block.layout()->lineCount() > 0) {
            const QTextLine first = block.layout()->lineAt(0);
            painter.drawEllipse(
                QPointF(room / 2.0 + 2.0, area.top() + first.y() + first.height() / 2.0), 3.5, 3.5);
        }
        block = block.next();
    }
}

} // namespace bedlore
