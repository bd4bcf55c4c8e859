// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/aims.hpp"
#include "gui/document/bed_picture.hpp"

#include <QRectF>
#include <QTransform>

#include <cstddef>
#include <optional>
#include <vector>

class QPainter;

// What the plan shows above the map: rings of equal line, the chosen aim, the chosen place.

namespace bedlore {

struct PlanOverlay {
    std::vector<AimLine> aims;
    std::optional<std::size_t> chosenAim;
    std::optional<Point> chosenPlace;
};

/// Faint rings around the rod tip, numbered in his own unit, wherever `window` shows them.
void paintRings(
    QPainter& painter,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const QTransform& toView,
    const QRectF& window);

/// The letters of the aims, the chosen one drawn in, and the chosen place.
void paintChosen(
    QPainter& painter,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const QTransform& toView,
    const QRectF& window);

/// Steps of a scale in his unit: 1, 2, 5 times a power of ten, at least `least` apart.
[[nodiscard]] double roundStep(double least);

} // namespace bedlore
