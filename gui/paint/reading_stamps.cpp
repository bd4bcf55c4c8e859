// SPDX-License-Identifier: MIT
#include "gui/paint/reading_stamps.hpp"

#include <QImage>
#include <QPaintDevice>
#include <QPainter>
#include <QPoint>

#include <cmath>
#include <cstddef>
#include <map>
#include <tuple>

namespace bedlore {

namespace {

constexpr int phases = 4; // places within a pixel, each way

/// A kind of sign, ready painted, and where in it the place of the reading is but for the phase.
struct Stamp {
    QImage image;
    int middle = 0;
};

/// Palette, size, pixels to a unit, sign, phase right and down.
using Key = std::tuple<PaletteKind, double, double, ReadingSymbol, int, int>;

Stamp made(const Key& key) {
    const auto& [palette, size, scale, symbol, right, down] = key;
    Stamp stamp;
    // Its rim, and a pixel for what is blurred.
    stamp.middle = static_cast<int>(std::ceil((readingReach(symbol, size) + size) * scale)) + 1;
    const int side = 2 * stamp.middle + 2;
    stamp.image = QImage(side, side, QImage::Format_ARGB32_Premultiplied);
    stamp.image.fill(Qt::transparent);
    QPainter painter(&stamp.image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(
        stamp.middle + static_cast<double>(right) / phases,
        stamp.middle + static_cast<double>(down) / phases);
    painter.scale(scale, scale);
    SymbolPainter(painter, palette, size).reading(QPointF(), symbol);
    return stamp;
}

const Stamp& stampOf(const Key& key) {
    constexpr std::size_t most = 4096;
    thread_local std::map<Key, Stamp> kept;
    if (const auto found = kept.find(key); found != kept.end()) {
        return found->second;
    }
    if (kept.size() >= most) {
        kept.clear();
    }
    return kept.emplace(key, made(key)).first->second;
}

} // namespace

ReadingStamps::ReadingStamps(QPainter& painter, PaletteKind palette, double size)
    : painter_(painter)
    , palette_(palette)
    , size_(size)
    , toDevice_(painter.worldTransform())
    , stamped_(
          !isVector(painter) && toDevice_.type() <= QTransform::TxScale &&
          toDevice_.m11() == toDevice_.m22() && toDevice_.m11() > 0.0 &&
          painter.device()->devicePixelRatioF() == 1.0) {
    if (stamped_) {
        painter_.save();
        painter_.resetTransform();
    }
}

ReadingStamps::~ReadingStamps() {
    if (stamped_) {
        painter_.restore();
    }
}

void ReadingStamps::paint(QPointF at, const ReadingSymbol& symbol) const {
    if (!stamped_) {
        SymbolPainter(painter_, palette_, size_).reading(at, symbol);
        return;
    }
    const QPointF place = toDevice_.map(at);
    const auto quarters = [](double along) {
        return static_cast<int>(std::lround(along * phases));
    };
    const auto whole = [](int count) {
        return static_cast<int>(std::floor(static_cast<double>(count) / phases));
    };
    const QPoint fine(quarters(place.x()), quarters(place.y()));
    const QPoint pixel(whole(fine.x()), whole(fine.y()));
    const QPoint phase = fine - phases * pixel;
    const Stamp& stamp = stampOf({palette_, size_, toDevice_.m11(), symbol, phase.x(), phase.y()});
    painter_.drawImage(pixel - QPoint(stamp.middle, stamp.middle), stamp.image);
}

} // namespace bedlore
