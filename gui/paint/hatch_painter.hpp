// SPDX-License-Identifier: MIT
#pragma once

#include "gui/paint/theme.hpp"

#include <QPointF>
#include <QRectF>

class QPainter;

// What is drawn where nothing is known.

namespace bedlore {

/// What nobody knows: paper with hairlines at 45° over `area`, six units apart. They run through
/// `origin`, so that they move with the map.
void paintUnknown(
    QPainter& painter, const QRectF& area, QPointF origin, PaletteKind kind, double size);

} // namespace bedlore
