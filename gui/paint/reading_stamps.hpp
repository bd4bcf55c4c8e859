// SPDX-License-Identifier: MIT
#pragma once

#include "gui/paint/symbol_painter.hpp"
#include "gui/paint/theme.hpp"

#include <QPointF>
#include <QTransform>

class QPainter;

namespace bedlore {

/// Paints many readings' signs on one painter: where it paints pixels, each kind of sign is drawn
/// once for every quarter of a pixel and laid where it is wanted. Ends with the painter as it was.
class ReadingStamps {
public:
    ReadingStamps(QPainter& painter, PaletteKind palette, double size);
    ReadingStamps(const ReadingStamps&) = delete;
    ReadingStamps& operator=(const ReadingStamps&) = delete;
    ~ReadingStamps();

    void paint(QPointF at, const ReadingSymbol& symbol) const;

private:
    QPainter& painter_;
    PaletteKind palette_;
    double size_;
    QTransform toDevice_;
    bool stamped_; ///< else every sign is drawn
};

} // namespace bedlore
