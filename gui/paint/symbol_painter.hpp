// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/kinds.hpp"
#include "core/book/mark.hpp"
#include "core/chart/map_drawing.hpp"
#include "gui/paint/theme.hpp"

#include <QColor>
#include <QPointF>
#include <QRectF>
#include <QSizeF>

#include <compare>
#include <optional>

class QPainter;

// The signs on a map: one way to draw each, on the map and in its legend.

namespace bedlore {

/// What lies on the depth colours is drawn in `ink` on a rim of `paper`, so that it shows on light
/// and on dark.
struct MapInks {
    QColor ink;
    QColor paper;
};
[[nodiscard]] MapInks mapInks(PaletteKind kind);

/// What of a reading is drawn at its place. Its pull stands beside the rest where there is room, so
/// that a map far away is not all signs; `pull` is that of a reading that has nothing else.
struct ReadingSymbol {
    bool depth = false;
    DropSymbol drop = DropSymbol::None;
    std::optional<Pull> pull = std::nullopt;
    bool doubtful = false;
    bool outcome = false;

    friend auto operator<=>(const ReadingSymbol&, const ReadingSymbol&) = default;
};
[[nodiscard]] ReadingSymbol symbolOf(const DrawnReading& reading);

/// How far a reading's sign reaches from its place, drawn with `size` times its lengths on screen.
[[nodiscard]] double readingReach(const ReadingSymbol& symbol, double size);

/// What the sign of a pull needs, and that of a bottom alone.
[[nodiscard]] QSizeF pullSize(double size);
[[nodiscard]] QSizeF bottomSize(double size);
/// Where the pull of a reading stands whose sign is `symbol`: below it.
[[nodiscard]] QPointF pullBelow(QPointF at, const ReadingSymbol& symbol, double size);
/// Where the pull of a stretch stands: beside the middle of its band, on its lower side, to the
/// right of an upright one.
[[nodiscard]] QPointF pullBeside(QPointF from, QPointF to, double size);

/// Draws signs with `size` times their lengths on screen. Leaves the painter's pen and brush
/// changed.
class SymbolPainter {
public:
    SymbolPainter(QPainter& painter, PaletteKind palette, double size);
    /// On another ground than the depth colours.
    SymbolPainter(QPainter& painter, PaletteKind palette, double size, const MapInks& inks);

    void reading(QPointF at, const ReadingSymbol& symbol) const;
    /// The bottom alone, in its pattern: a short piece of a stretch.
    void bottom(QPointF at, std::optional<Substrate> substrate, std::optional<Cover> cover) const;
    void stretch(
        QPointF from,
        QPointF to,
        std::optional<Substrate> substrate,
        std::optional<Cover> cover) const;
    void cast(QPointF tip, QPointF end, bool guessed) const;
    void swim(QPointF at, bool chosen) const;
    /// An open diamond.
    void spot(QPointF at) const;
    /// A triangle that stands on `at`, open for a mark of the night only.
    void mark(QPointF at, MarkTime time) const;

private:
    void pull(QPointF at, Pull kind) const;

    QPainter& painter_;
    MapInks inks_;
    PaletteKind palette_;
    double size_;
};

/// Whether what is painted is kept as shapes, to be seen at any size.
[[nodiscard]] bool isVector(const QPainter& painter);

} // namespace bedlore
