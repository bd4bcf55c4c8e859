// SPDX-License-Identifier: MIT
#include "gui/paint/stretch_pattern.hpp"

#include <QPainter>

namespace bedlore {

StretchLook lookOf(Substrate kind) {
    switch (kind) {
    case Substrate::Rock:
        return {StretchPattern::Blocks, QColor(0x53, 0x23, 0x10)};
    case Substrate::CoarseGravel:
    case Substrate::Gravel:
    case Substrate::FineGravel:
        return {StretchPattern::Circles, QColor(0xEC, 0x8C, 0x60)};
    case Substrate::Mussels:
        return {StretchPattern::Crescents, QColor(0xF2, 0xE3, 0xC6)};
    case Substrate::Sand:
        return {StretchPattern::Dots, QColor(0xE4, 0xB5, 0x3D)};
    case Substrate::HardClay:
    case Substrate::Clay:
        return {StretchPattern::Lines, QColor(0x86, 0x5D, 0xA6)};
    case Substrate::FirmSilt:
    case Substrate::Silt:
        return {StretchPattern::Dashes, QColor(0x70, 0x82, 0x8E)};
    case Substrate::BlackSilt:
        return {StretchPattern::Dashes, QColor(0x1F, 0x23, 0x28), true};
    case Substrate::Hard:
        return {StretchPattern::ThickTicks, {}};
    case Substrate::Soft:
        return {StretchPattern::ThinTicks, {}};
    }
    return {};
}

StretchLook lookOf(Cover kind) {
    switch (kind) {
    case Cover::Clear:
        return {};
    case Cover::Weed:
    case Cover::LowWeed:
    case Cover::TallWeed:
    case Cover::SilkWeed:
    case Cover::Pads:
        return {StretchPattern::Tufts, QColor(0x25, 0x78, 0x52)};
    case Cover::Leaves:
        return {StretchPattern::Vees, QColor(0x91, 0x6B, 0x1B)};
    case Cover::Twigs:
        return {StretchPattern::Bars, QColor(0x91, 0x6B, 0x1B)};
    case Cover::Roots:
        return {StretchPattern::Crosses, {}};
    }
    return {};
}

void paintPiece(QPainter& painter, StretchPattern pattern, double size) {
    const double s = size;
    switch (pattern) {
    case StretchPattern::Plain:
        break;
    case StretchPattern::Blocks:
        painter.drawRect(QRectF(-1.6 * s, -1.4 * s, 3.2 * s, 2.8 * s));
        break;
    case StretchPattern::Circles:
        painter.drawEllipse(QPointF(), 1.5 * s, 1.5 * s);
        break;
    case StretchPattern::Crescents:
        painter.drawArc(QRectF(-1.8 * s, -1.4 * s, 3.6 * s, 3.6 * s), 0, 180 * 16);
        break;
    case StretchPattern::Dots:
        painter.drawEllipse(QPointF(-1.2 * s, -0.9 * s), 0.45 * s, 0.45 * s);
        painter.drawEllipse(QPointF(1.2 * s, 0.9 * s), 0.45 * s, 0.45 * s);
        break;
    case StretchPattern::Lines:
        painter.drawLine(QPointF(-2.5 * s, -0.9 * s), QPointF(2.5 * s, -0.9 * s));
        painter.drawLine(QPointF(-2.5 * s, 0.9 * s), QPointF(2.5 * s, 0.9 * s));
        break;
    case StretchPattern::Dashes:
        painter.drawLine(QPointF(-1.7 * s, -0.9 * s), QPointF(0.3 * s, -0.9 * s));
        painter.drawLine(QPointF(0.0, 0.9 * s), QPointF(2.0 * s, 0.9 * s));
        break;
    case StretchPattern::Tufts:
        painter.drawLine(QPointF(0.0, 1.4 * s), QPointF(-1.3 * s, -1.3 * s));
        painter.drawLine(QPointF(0.0, 1.4 * s), QPointF(0.0, -1.6 * s));
        painter.drawLine(QPointF(0.0, 1.4 * s), QPointF(1.3 * s, -1.3 * s));
        break;
    case StretchPattern::Vees:
        painter.drawLine(QPointF(-1.2 * s, -0.8 * s), QPointF(0.0, 0.9 * s));
        painter.drawLine(QPointF(0.0, 0.9 * s), QPointF(1.2 * s, -0.8 * s));
        break;
    case StretchPattern::Bars:
        painter.drawLine(QPointF(0.0, -1.7 * s), QPointF(0.0, 1.7 * s));
        break;
    case StretchPattern::Crosses:
        painter.drawLine(QPointF(-1.2 * s, -1.2 * s), QPointF(1.2 * s, 1.2 * s));
        painter.drawLine(QPointF(-1.2 * s, 1.2 * s), QPointF(1.2 * s, -1.2 * s));
        break;
    case StretchPattern::ThickTicks:
    case StretchPattern::ThinTicks:
        painter.drawLine(QPointF(-1.2 * s, 1.5 * s), QPointF(1.2 * s, -1.5 * s));
        break;
    }
}

} // namespace bedlore
