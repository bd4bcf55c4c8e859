// SPDX-License-Identifier: MIT
#pragma once

#include <QColor>
#include <QPointF>
#include <QString>

class QFont;
class QPainter;

// Words that stand on the map.

namespace bedlore {

/// `ink` on a rim `width` wide all round.
struct RimmedInk {
    QColor ink;
    QColor rim;
    double width = 1.2;
};

/// Words that hatch and colours do not run through. `base` is the left end of their base line.
void paintRimmedWords(
    QPainter& painter, QPointF base, const QString& text, const QFont& font, const RimmedInk& ink);

} // namespace bedlore
