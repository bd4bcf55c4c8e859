// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_overlay.hpp"

#include "core/units/format.hpp"
#include "gui/paint/furniture_painter.hpp"
#include "gui/paint/rimmed_words.hpp"

#include <QFont>
#include <QFontInfo>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QString>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

namespace bedlore {

namespace {

constexpr double ringSpacing = 56.0; // pixels between rings, at least
constexpr int mostRings = 60;
constexpr double besideFan = 7.0; // degrees from the fan to the first ring number beside it
constexpr double footLines = 4.0; // rows of text at the foot where scale bar and north stand
constexpr double letterGap = 6.0; // pixels from the farthest reading to the letter of its aim

QPointF onScreen(const QTransform& toView, Point place) {
    return toView.map(QPointF(place.east, place.north));
}

double pixelsPerMetre(const QTransform& toView) {
    return std::hypot(toView.m11(), toView.m12());
}

/// Where ring numbers may stand, best first: just outside the fan of casts, right of it, then left,
/// then farther round on either side.
std::vector<AimLine> numberLines(const PlanOverlay& overlay, const BedPicture& picture, Point tip) {
    const bool aimless = overlay.aims.empty();
    const PlaneBearing right =
        aimless ? picture.drawing->up + 25.0_deg : overlay.aims.back().direction;
    const PlaneBearing left =
        aimless ? picture.drawing->up - 25.0_deg : overlay.aims.front().direction;
    std::vector<AimLine> lines;
    constexpr double step = 6.0; // [°]
    for (int i = 0; besideFan + i * step < 100.0; ++i) {
        const double aside = besideFan + i * step;
        for (const PlaneBearing direction : {right + aside * degree, left - aside * degree}) {
            AimLine line;
            line.tip = tip;
            line.direction = direction;
            line.tipHeight = aimless ? picture.bed->tipHeight() : overlay.aims.front().tipHeight;
            lines.push_back(line);
        }
    }
    return lines;
}

/// Finds where the numbers of rings stand in a window.
class RingNumbers {
public:
    RingNumbers(
        const BedPicture& picture,
        std::vector<AimLine> lines,
        const ChartView& view,
        const QFont& font,
        std::vector<QRectF> taken)
        : picture_(picture)
        , lines_(std::move(lines))
        , toView_(view.toView)
        , toPlane_(view.toView.inverted())
        , metrics_(font)
        , inner_(view.window.adjusted(6.0, 6.0, -6.0, -6.0))
        , aboveFoot_(inner_.adjusted(0.0, 0.0, 0.0, 6.0 - footLines * metrics_.height()))
        , taken_(std::move(taken)) {}

    [[nodiscard]] double widthOf(const QString& text) const {
        return metrics_.horizontalAdvance(text);
    }
    /// Where `text` of the ring at `range` stands: beside the bed, since a distance among depths is
    /// misread.
    [[nodiscard]] std::optional<PlacedWords> besideBed(const QString& text, Length range) {
        const auto suits = [this](const QRectF& box) { return !liesOnBed(box); };
        auto found = place(text, range, aboveFoot_, suits);
        // What is known of the whole map stands at the foot: it comes first there.
        return found ? found : place(text, range, inner_, suits);
    }
    /// On a sheet of paper, so that it is read apart from the depths about it.
    [[nodiscard]] std::optional<PlacedWords> onBed(const QString& text, Length range) {
        const auto suits = [](const QRectF&) { return true; };
        auto found = place(text, range, inner_, suits);
        if (!found) {
            // He looks so near that no edge of the fan is in sight: towards what he looks at.
            const QPointF middle = toPlane_.map(inner_.center());
            AimLine line = lines_.front();
            line.direction = directionTo(line.tip, {middle.x(), middle.y()});
            std::swap(lines_.front(), line);
            found = place(text, range, inner_, suits);
            std::swap(lines_.front(), line);
        }
        if (found) {
            found->onSheet = true;
        }
        return found;
    }

private:
    template <class Suits>
    [[nodiscard]] std::optional<PlacedWords>
    place(const QString& text, Length range, const QRectF& area, const Suits& suits) {
        const QRectF letters = metrics_.tightBoundingRect(text);
        for (const AimLine& line : lines_) {
            const QPointF at = onScreen(toView_, placeOn(line.tip, line.direction, range));
            const QPointF base = at - letters.center();
            const QRectF box = letters.translated(base).adjusted(-4.0, -4.0, 4.0, 4.0);
            if (area.contains(box) && isFree(box) && suits(box)) {
                taken_.push_back(box);
                return PlacedWords{.text = text, .base = base, .box = box};
            }
        }
        return std::nullopt;
    }
    [[nodiscard]] bool isFree(const QRectF& box) const {
        return std::none_of(taken_.begin(), taken_.end(), [&](const QRectF& other) {
            return other.intersects(box);
        });
    }
    [[nodiscard]] bool isBed(QPointF at) const {
        const QPointF place = toPlane_.map(at);
        return picture_.bed->levelAt({place.x(), place.y()}).has_value();
    }
    [[nodiscard]] bool liesOnBed(const QRectF& box) const {
        return isBed(box.center()) || isBed(box.topLeft()) || isBed(box.topRight()) ||
               isBed(box.bottomLeft()) || isBed(box.bottomRight());
    }

    const BedPicture& picture_;
    std::vector<AimLine> lines_;
    QTransform toView_;
    QTransform toPlane_;
    QFontMetricsF metrics_;
    QRectF inner_;
    QRectF aboveFoot_;
    std::vector<QRectF> taken_;
};

/// What the number of a ring may say.
struct RingWords {
    QString bare;
    QString withUnit;
    Length range;
};

/// Beside the bed where there is room, the unit said once. On the bed, where they hide readings,
/// only what is small against the plan, or the first while no ring has a number at all.
void numberRings(
    PlacedRings& rings,
    const std::vector<RingWords>& wanted,
    RingNumbers& numbers,
    double widestOnBed) {
    std::vector<RingWords> left;
    for (const RingWords& words : wanted) {
        const QString& text = rings.numbers.empty() ? words.withUnit : words.bare;
        if (auto beside = numbers.besideBed(text, words.range)) {
            rings.numbers.push_back(*std::move(beside));
        } else {
            left.push_back(words);
        }
    }
    for (const RingWords& words : left) {
        const bool isFirst = rings.numbers.empty();
        auto found = isFirst ? std::nullopt : numbers.besideBed(words.bare, words.range);
        if (!found && (isFirst || numbers.widthOf(words.withUnit) <= widestOnBed)) {
            // With its unit nobody takes it for a depth.
            found = numbers.onBed(words.withUnit, words.range);
        }
        if (found) {
            rings.numbers.push_back(*std::move(found));
        }
    }
}

void paintHaloText(QPainter& painter, QPointF at, const QString& text, const Palette& colours) {
    paintRimmedWords(
        painter,
        at,
        text,
        painter.font(),
        {.ink = colours.ink, .rim = colours.paper, .width = 1.0});
}

/// What is farthest from paper in lightness: on the depth half-way between, each is seen.
QColor signInk(const Palette& colours) {
    return colours.warn.lightnessF() >
                   std::max(colours.ink.lightnessF(), colours.paper.lightnessF())
               ? colours.warn
               : colours.ink;
}

struct CrossArms {
    double from = 0.0; ///< pixels from the middle
    double to = 0.0;
};

void paintCross(QPainter& painter, QPointF at, const CrossArms& arms, const Palette& colours) {
    for (const auto& [colour, width, beyond] :
         {std::tuple(colours.paper, 6.0, 1.5), std::tuple(signInk(colours), 2.0, 0.0)}) {
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
        for (const QPointF& way : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
            painter.drawLine(at + arms.from * way, at + (arms.to + beyond) * way);
        }
    }
}

void paintPlace(QPainter& painter, QPointF at, const Palette& colours) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.paper, 5.0));
    painter.drawEllipse(at, 7.0, 7.0);
    paintCross(painter, at, {.from = 9.0, .to = 15.0}, colours);
    painter.setPen(QPen(signInk(colours), 2.0));
    painter.drawEllipse(at, 7.0, 7.0);
}

} // namespace

void paintKeyPointer(QPainter& painter, QPointF at, PaletteKind kind) {
    paintCross(painter, at, {.from = 0.0, .to = 11.0}, palette(kind));
}

double roundStep(double least) {
    const double power = std::pow(10.0, std::floor(std::log10(std::max(least, 1e-9))));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * power >= least * (1.0 - 1e-9)) {
            return times * power;
        }
    }
    return 10.0 * power;
}

std::vector<PlacedWords>
placeLetters(const QFont& font, const PlanOverlay& overlay, const QTransform& toView) {
    QFont bold = font;
    bold.setBold(true); // the chosen one is: the others may become so
    const QFontMetricsF metrics(bold);
    const double pixels = pixelsPerMetre(toView);
    std::vector<PlacedWords> letters;
    for (const AimLine& aim : overlay.aims) {
        PlacedWords letter;
        letter.text = QString::fromStdString(aim.label);
        const QRectF glyph = metrics.tightBoundingRect(letter.text);
        const double step = 0.6 * std::max(glyph.height(), 8.0);
        double beyond = letterGap + 0.5 * std::hypot(glyph.width(), glyph.height());
        constexpr int mostSteps = 8;
        for (int i = 0; i <= mostSteps; ++i, beyond += step) {
            const QPointF at = onScreen(
                toView, placeOn(aim.tip, aim.direction, aim.reach + beyond / pixels * metre));
            letter.base = at - glyph.center();
            letter.box = glyph.translated(letter.base).adjusted(-3.0, -3.0, 3.0, 3.0);
            const bool isFree =
                std::none_of(letters.begin(), letters.end(), [&](const PlacedWords& other) {
                    return other.box.intersects(letter.box);
                });
            if (isFree) {
                break;
            }
        }
        letters.push_back(std::move(letter));
    }
    return letters;
}

PlacedRings placeRings(
    const QFont& font,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const ChartView& view,
    const std::vector<QRectF>& taken) {
    PlacedRings rings;
    const ReducedSwim* standing = picture.bed->standing();
    if (standing == nullptr || !picture.look.layers.rings) {
        return rings;
    }
    const QRectF& window = view.window;
    const Length unit = distanceUnitLength(picture.look.units, wrapFor(*picture.bed, overlay.aims));
    const double pixels = pixelsPerMetre(view.toView);
    const double spacing = std::max(ringSpacing, 2.5 * QFontMetricsF(font).height());
    const double step = std::max(1.0, roundStep(spacing / (pixels * unit.si())));
    const std::vector<AimLine> lines = numberLines(overlay, picture, standing->tip);
    RingNumbers numbers(picture, lines, view, font, taken);
    std::vector<RingWords> wanted;
    rings.middle = onScreen(view.toView, standing->tip);
    const double farthest =
        std::hypot(window.width(), window.height()) +
        std::hypot(rings.middle.x() - window.center().x(), rings.middle.y() - window.center().y());
    for (int i = 1; i <= mostRings; ++i) {
        const double count = i * step;
        const Length range = rangeFor(*picture.bed, lines.front(), count * unit);
        const double radius = range.si() * pixels;
        if (radius > farthest) {
            break;
        }
        rings.radii.push_back(radius);
        const std::string_view name = unitName(picture.look.units.distance, count);
        const QString bare = QString::fromStdString(printNumber(count));
        wanted.push_back({bare, bare + u' ' + QString::fromUtf8(name.data()), range});
    }
    numberRings(rings, wanted, numbers, 0.2 * window.width());
    return rings;
}

namespace {

/// Those parts of a circle that lie in `area`, in pieces too short to look straight: most of a ring
/// lies outside the window, and what is painted in stripes should not be drawn in each of them.
void addArcs(QPainterPath& path, QPointF middle, double radius, const QRectF& area) {
    constexpr double sagitta = 0.1; // pixels from a piece to the circle, at most
    const double most = 2.0 * std::acos(1.0 - std::min(sagitta / radius, 1.0));
    const int pieces = std::max(8, static_cast<int>(std::ceil(2.0 * std::numbers::pi / most)));
    const double turn = 2.0 * std::numbers::pi / pieces;
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    QPointF arm(radius, 0.0); // turned on by one piece each time
    QPointF from = middle + arm;
    bool drawn = false; // the path has come to `from`
    for (int i = 1; i <= pieces; ++i) {
        arm = QPointF(c * arm.x() - s * arm.y(), s * arm.x() + c * arm.y());
        const QPointF to = middle + arm;
        const bool passes = std::max(from.x(), to.x()) >= area.left() &&
                            std::min(from.x(), to.x()) <= area.right() &&
                            std::max(from.y(), to.y()) >= area.top() &&
                            std::min(from.y(), to.y()) <= area.bottom();
        if (passes) {
            if (!drawn) {
                path.moveTo(from);
            }
            path.lineTo(to);
        }
        drawn = passes;
        from = to;
    }
}

} // namespace

void paintRings(
    QPainter& painter, const PlacedRings& rings, const QRectF& stripe, PaletteKind kind) {
    const Palette& colours = palette(kind);
    painter.setRenderHint(QPainter::Antialiasing);
    QColor faint = colours.ink;
    faint.setAlphaF(0.16F);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(faint, 1.0));
    const QRectF near = stripe.adjusted(-2.0, -2.0, 2.0, 2.0);
    for (const double radius : rings.radii) {
        QPainterPath ring;
        addArcs(ring, rings.middle, radius, near);
        painter.drawPath(ring);
    }
}

void paintRingNumbers(
    QPainter& painter, const PlacedRings& rings, const QRectF& stripe, PaletteKind kind) {
    const Palette& colours = palette(kind);
    const double most = 2.0 * QFontInfo(painter.font()).pixelSize();
    for (const PlacedWords& number : rings.numbers) {
        if (number.box.adjusted(-most, -most, most, most).intersects(stripe)) {
            if (number.onSheet) {
                painter.setPen(Qt::NoPen);
                painter.setBrush(faded(colours.paper, paperBehindWords));
                painter.drawRoundedRect(number.box, 4.0, 4.0);
            }
            paintHaloText(painter, number.base, number.text, colours);
        }
    }
}

void paintFixes(QPainter& painter, const BedPicture& picture, const ChartView& view) {
    if (!picture.look.layers.fixes) {
        return;
    }
    const QRectF& window = view.window;
    constexpr double crowded = 3.0; // pixels from one dot to the next, at least
    const auto columns = static_cast<std::size_t>(window.width() / crowded) + 1;
    const auto rows = static_cast<std::size_t>(window.height() / crowded) + 1;
    std::vector<bool> taken(columns * rows);
    QColor ink =
        palette(
            picture.look.palette == PaletteKind::Dark ? PaletteKind::Light : picture.look.palette)
            .ink;
    ink.setAlphaF(0.55F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    for (const Sounding& sounding : picture.bed->reduction.soundings) {
        const QPointF at = onScreen(view.toView, sounding.place);
        if (!std::holds_alternative<FixRow>(sounding.source) || !window.contains(at)) {
            continue;
        }
        const auto cell = static_cast<std::size_t>((at.y() - window.top()) / crowded) * columns +
                          static_cast<std::size_t>((at.x() - window.left()) / crowded);
        if (!taken[cell]) {
            taken[cell] = true;
            painter.drawEllipse(at, 1.1, 1.1);
        }
    }
}

void paintChosen(
    QPainter& painter, const PlanOverlay& overlay, const QTransform& toView, PaletteKind kind) {
    const Palette& colours = palette(kind);
    painter.setRenderHint(QPainter::Antialiasing);
    const std::vector<PlacedWords> letters = placeLetters(painter.font(), overlay, toView);
    for (std::size_t i = 0; i < overlay.aims.size(); ++i) {
        const AimLine& aim = overlay.aims[i];
        const bool chosen = overlay.chosenAim == i;
        QFont face = painter.font();
        face.setBold(chosen);
        painter.setFont(face);
        if (chosen) {
            const QPointF from = onScreen(toView, aim.tip);
            const QPointF to = onScreen(toView, placeOn(aim.tip, aim.direction, aim.reach));
            painter.setPen(QPen(colours.paper, 3.0));
            painter.drawLine(from, to);
            painter.setPen(QPen(colours.accent, 1.5));
            painter.drawLine(from, to);
        }
        paintHaloText(painter, letters[i].base, letters[i].text, colours);
    }
    if (overlay.chosenPlace) {
        paintPlace(painter, onScreen(toView, *overlay.chosenPlace), colours);
    }
}

} // namespace bedlore
