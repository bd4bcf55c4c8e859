// SPDX-License-Identifier: MIT
#include "gui/paint/rimmed_words.hpp"

#include "gui/paint/symbol_painter.hpp"

#include <QFont>
#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QPainterPath>
#include <QPen>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>
#include <vector>

namespace bedlore {

namespace {

/// Shifted all round: letters come from the cache of glyphs, a stroke would not.
void paintShifted(
    QPainter& painter, QPointF base, const QString& text, const QFont& font, const RimmedInk& ink) {
    painter.setFont(font);
    painter.setPen(ink.rim);
    for (int i = 0; i < 8; ++i) {
        const double a = i * std::numbers::pi / 4.0;
        painter.drawText(base + ink.width * QPointF(std::cos(a), std::sin(a)), text);
    }
    painter.setPen(ink.ink);
    painter.drawText(base, text);
}

/// A word ready painted, and where in it the left end of its base line is.
struct Sprite {
    QImage image;
    QPoint base;
};

/// The same few depths stand all over a map, and are painted anew with every line typed.
class Sprites {
public:
    const Sprite& of(const QString& text, const QFont& font, const RimmedInk& ink, double scale) {
        const Key key{fontNumber(font), text, coarse(ink.ink), coarse(ink.rim), ink.width, scale};
        if (const auto found = kept_.find(key); found != kept_.end()) {
            return found->second;
        }
        if (kept_.size() >= most) {
            kept_.clear();
        }
        const RimmedInk coarser{
            .ink = QColor::fromRgba(std::get<2>(key)),
            .rim = QColor::fromRgba(std::get<3>(key)),
            .width = ink.width};
        return kept_.emplace(key, made(text, font, coarser, scale)).first->second;
    }

private:
    using Key = std::tuple<std::size_t, QString, QRgb, QRgb, double, double>;
    static constexpr std::size_t most = 4096;
    static constexpr std::size_t mostFonts = 16;

    std::size_t fontNumber(const QFont& font) {
        const auto found = std::find(fonts_.begin(), fonts_.end(), font);
        if (found != fonts_.end()) {
            return static_cast<std::size_t>(found - fonts_.begin());
        }
        if (fonts_.size() >= mostFonts) {
            fonts_.clear();
            kept_.clear();
        }
        fonts_.push_back(font);
        return fonts_.size() - 1;
    }

    /// Rims take the colour of the ground: all that the eye takes for the same share one.
    static QRgb coarse(QColor colour) {
        const auto step = [](int value) { return qMin(255, (value + 4) / 8 * 8); };
        return qRgba(step(colour.red()), step(colour.green()), step(colour.blue()), colour.alpha());
    }

    [[nodiscard]] static Sprite
    made(const QString& text, const QFont& font, const RimmedInk& ink, double scale) {
        const QFontMetricsF metrics(font);
        const double room = ink.width + 2.0;
        const QRectF box = metrics.boundingRect(text).united(
            QRectF(0.0, -metrics.ascent(), metrics.horizontalAdvance(text), metrics.height()));
        Sprite sprite;
        sprite.base = QPoint(
            static_cast<int>(std::ceil((room - box.left()) * scale)),
            static_cast<int>(std::ceil((room - box.top()) * scale)));
        sprite.image = QImage(
            sprite.base.x() + static_cast<int>(std::ceil((box.right() + room) * scale)),
            sprite.base.y() + static_cast<int>(std::ceil((box.bottom() + room) * scale)),
            QImage::Format_ARGB32_Premultiplied);
        sprite.image.fill(Qt::transparent);
        QPainter painter(&sprite.image);
        painter.setRenderHint(QPainter::TextAntialiasing);
        painter.translate(sprite.base);
        painter.scale(scale, scale);
        paintShifted(painter, QPointF(), text, font, ink);
        return sprite;
    }

    std::vector<QFont> fonts_;
    std::map<Key, Sprite> kept_;
};

} // namespace

void paintRimmedWords(
    QPainter& painter, QPointF base, const QString& text, const QFont& font, const RimmedInk& ink) {
    if (isVector(painter)) {
        QPainterPath letters;
        letters.addText(base, font, text);
        painter.strokePath(
            letters, QPen(ink.rim, 2.0 * ink.width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setFont(font);
        painter.setPen(ink.ink);
        painter.drawText(base, text);
        return;
    }
    const QTransform& toDevice = painter.worldTransform();
    const bool upright = toDevice.type() <= QTransform::TxScale &&
                         toDevice.m11() == toDevice.m22() && toDevice.m11() > 0.0 &&
                         painter.device()->devicePixelRatioF() == 1.0;
    if (!upright) {
        paintShifted(painter, base, text, font, ink);
        return;
    }
    thread_local Sprites sprites;
    const Sprite& sprite = sprites.of(text, font, ink, toDevice.m11());
    // Rounded the same way wherever a stripe of the picture begins.
    const QPointF place = toDevice.map(base);
    const QPoint at = QPoint(
                          static_cast<int>(std::floor(place.x() + 0.5)),
                          static_cast<int>(std::floor(place.y() + 0.5))) -
                      sprite.base;
    if (toDevice.isIdentity()) {
        painter.drawImage(at, sprite.image);
        return;
    }
    painter.save();
    painter.resetTransform();
    painter.drawImage(at, sprite.image);
    painter.restore();
}

} // namespace bedlore
