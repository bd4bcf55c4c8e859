// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/aims.hpp"
#include "gui/document/bed_picture.hpp"

#include <QFont>
#include <QPointF>
#include <QRectF>
#include <QString>
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

/// A letter or a number where it stands.
struct PlacedWords {
    QString text;
    QPointF base;         ///< left end of its base line
    QRectF box;           ///< with what must stay free around it
    bool onSheet = false; ///< among depths: on paper of its own
};

/// The letters of the aims, each beyond the farthest reading of its aim; where two would touch, one
/// stands farther out. In the order of the aims.
[[nodiscard]] std::vector<PlacedWords>
placeLetters(const QFont& font, const PlanOverlay& overlay, const QTransform& toView);

/// Rings around the rod tip, numbered in his own unit, wherever `window` shows them.
struct PlacedRings {
    QPointF middle;
    std::vector<double> radii;
    std::vector<PlacedWords> numbers;
};

/// Numbers keep clear of `taken`, and stand beside the bed where there is room.
[[nodiscard]] PlacedRings placeRings(
    const QFont& font,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const ChartView& view,
    const std::vector<QRectF>& taken);

/// Faint, and without their numbers. Only what lies in `stripe` needs to be painted.
void paintRings(
    QPainter& painter, const PlacedRings& rings, const QRectF& stripe, PaletteKind kind);
void paintRingNumbers(
    QPainter& painter, const PlacedRings& rings, const QRectF& stripe, PaletteKind kind);

/// A small dot at each depth from elsewhere; where they are crowded, one for many.
void paintFixes(QPainter& painter, const BedPicture& picture, const ChartView& view);

/// The letters of the aims, the chosen one drawn in, and the chosen place.
void paintChosen(
    QPainter& painter, const PlanOverlay& overlay, const QTransform& toView, PaletteKind kind);

/// Where the keys point. It and the chosen place can be seen on any ground, since paper lies round
/// their ink.
void paintKeyPointer(QPainter& painter, QPointF at, PaletteKind kind);

/// Steps of a scale in his unit: 1, 2, 5 times a power of ten, at least `least` apart.
[[nodiscard]] double roundStep(double least);

} // namespace bedlore
