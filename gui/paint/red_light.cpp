// SPDX-License-Identifier: MIT
#include "gui/paint/red_light.hpp"

#include <cmath>

namespace bedlore {

QRgb redGlow(double light) {
    const double share = 0.08 + 0.56 * light;
    const auto part = [share](double full) { return static_cast<int>(std::lround(full * share)); };
    return qRgb(part(255.0), part(70.0), part(58.0));
}

QImage inRedLight(const QImage& picture) {
    QImage red = picture.convertToFormat(QImage::Format_ARGB32);
    for (int y = 0; y < red.height(); ++y) {
        auto* row = reinterpret_cast<QRgb*>(red.scanLine(y));
        for (int x = 0; x < red.width(); ++x) {
            const QRgb glow = redGlow(qGray(row[x]) / 255.0);
            row[x] = qRgba(qRed(glow), qGreen(glow), qBlue(glow), qAlpha(row[x]));
        }
    }
    return red;
}

QIcon inRedLight(const QIcon& icon) {
    QIcon red;
    for (const int side : {16, 24, 32, 64}) {
        for (const QIcon::Mode mode : {QIcon::Normal, QIcon::Disabled, QIcon::Selected}) {
            const QPixmap picture = icon.pixmap(QSize(side, side), mode);
            if (!picture.isNull()) {
                red.addPixmap(QPixmap::fromImage(inRedLight(picture.toImage())), mode);
            }
        }
    }
    return red;
}

} // namespace bedlore
