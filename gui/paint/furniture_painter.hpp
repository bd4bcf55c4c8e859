// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/taken_boxes.hpp"
#include "gui/paint/chart_painter.hpp"

#include <QFont>
#include <QFontMetricsF>
#include <QPointF>
#include <QRectF>
#include <QString>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

class QPainter;

// What stands on a map without being part of the bed: scale bar, north, marks along the edge,
// rings, words.

namespace bedlore {

/// Along a direction of the plane, one unit long on the canvas.
[[nodiscard]] QPointF canvasDirection(const ChartView& view, PlaneBearing bearing);

/// Opacity of the paper behind words on a map.
inline constexpr double paperBehindWords = 0.82;

/// The same font, sharing nothing with it: one may not be asked by two threads at once, not even as
/// a copy.
[[nodiscard]] QFont unshared(QFont font);

/// What words on a map are written in.
struct ChartFonts {
    QFont name;
    QFont note;
};

/// Finds its places first, so that numbers on the map can keep clear, and is drawn last.
class Furniture {
public:
    Furniture(
        const MapDrawing& map, const ChartStyle& style, const ChartView& view, ChartFonts fonts);

    void place();
    /// Where what comes first stands: scale bar, north, words about the whole map, the swims with
    /// their names. Asked in place of `place`.
    [[nodiscard]] std::vector<QRectF> boxesOfFirst();
    /// Where it stands.
    [[nodiscard]] const TakenBoxes& taken() const { return taken_; }

    /// Faint rings round the chosen swim; their distances are drawn with the rest.
    void paintRings(QPainter& painter) const;
    /// What lies in `stripe` of the view.
    void paint(QPainter& painter, const ChartFonts& fonts, const QRectF& stripe) const;

private:
    /// Asks no font but those that it is given.
    using Painting = std::function<void(QPainter&, const ChartFonts&)>;
    struct Drawing {
        QRectF box; ///< nothing is painted outside it
        Painting paint;
    };

    /// Of one distance from the viewer, as it is drawn.
    struct DistanceRing {
        double radius = 0.0;
        std::string words;
    };

    void placeEmptyWords();
    void placeNorth();
    void placeScaleBar();
    void placeFirst();
    void placeDepthKey();
    [[nodiscard]] bool placeWholeDepthKey();
    void placeSmallDepthKey();
    void placeGuessedWords();
    void placeLevelWords();
    /// A sheet of paper behind words that may lie on the bed.
    void paintSheet(QPainter& painter, const QRectF& sheet) const;
    void placeSheetBehind(const std::vector<QRectF>& boxes);
    void placeMarks();
    void placeMark(const DrawnMark& mark, QPointF at);
    void placeSwims();
    void placeSpots();
    void placeAimLetters();
    void placeRingDistances();

    enum class WordsKind : std::uint8_t { Name, Note };
    /// A name beside a sign at `at`: to its right, else to its left, else nowhere.
    void addNameBeside(QPointF at, const std::string& name);
    /// Words on a rim of paper, so that hatch and colours do not run through the letters.
    void addWords(const QRectF& box, const QString& text, WordsKind kind);
    /// A sign with the rim round it.
    [[nodiscard]] QRectF withRim(const QRectF& sign) const;
    void take(const QRectF& box);
    void draw(const QRectF& box, Painting paint) { drawings_.push_back({box, std::move(paint)}); }
    [[nodiscard]] bool isFree(const QRectF& box) const;
    [[nodiscard]] bool liesOnBed(const QRectF& box) const;
    [[nodiscard]] const DrawnSwim* viewer() const;
    [[nodiscard]] std::vector<DistanceRing> rings() const;

    const MapDrawing& map_;
    const ChartStyle& style_;
    const ChartView& view_;
    ChartFonts fonts_;
    QFontMetricsF metrics_; ///< of names
    double size_;
    TakenBoxes taken_;
    std::vector<Drawing> drawings_;
};

} // namespace bedlore
