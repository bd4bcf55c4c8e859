// SPDX-License-Identifier: MIT
#include "gui/paint/reading_stamps.hpp"

#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>

namespace bedlore {
namespace {

constexpr double size = 1.0;
constexpr ReadingSymbol soft{.depth = true, .drop = DropSymbol::Soft, .doubtful = true};

QImage ground() {
    QImage image(48, 48, QImage::Format_RGB32);
    image.fill(QColor(90, 140, 120));
    return image;
}

QImage drawn(QPointF at, const ReadingSymbol& symbol, double scale) {
    QImage image = ground();
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(scale, scale);
    SymbolPainter(painter, PaletteKind::Light, size).reading(at, symbol);
    return image;
}

QImage stamped(QPointF at, const ReadingSymbol& symbol, double scale) {
    QImage image = ground();
    QPainter painter(&image);
    painter.scale(scale, scale);
    ReadingStamps(painter, PaletteKind::Light, size).paint(at, symbol);
    return image;
}

/// The most by which a colour of a pixel differs, of 255.
int mostApart(const QImage& a, const QImage& b) {
    int most = 0;
    for (int y = 0; y < a.height(); ++y) {
        for (int x = 0; x < a.width(); ++x) {
            const QColor p = a.pixelColor(x, y);
            const QColor q = b.pixelColor(x, y);
            most = std::max(
                {most,
                 std::abs(p.red() - q.red()),
                 std::abs(p.green() - q.green()),
                 std::abs(p.blue() - q.blue())});
        }
    }
    return most;
}

// A stamp is blended once from what was blended before: two roundings more, on each of at most
// four shapes.
constexpr int rounding = 8;

TEST(ReadingStamps, AreWhatWouldBeDrawn) {
    for (const double scale : {1.0, 1.5, 2.0}) {
        const QPointF at = QPointF(20.25, 23.5) / scale;
        for (const ReadingSymbol& symbol :
             {soft,
              ReadingSymbol{.depth = true},
              ReadingSymbol{.drop = DropSymbol::Hard},
              ReadingSymbol{.pull = Pull::Judder, .doubtful = true},
              ReadingSymbol{.outcome = true}}) {
            EXPECT_LE(mostApart(stamped(at, symbol, scale), drawn(at, symbol, scale)), rounding);
            EXPECT_GT(mostApart(stamped(at, symbol, scale), ground()), 50);
        }
    }
}

TEST(ReadingStamps, LieWithinAnEighthOfAPixelOfTheirPlace) {
    const ReadingSymbol dot{.depth = true};
    // From 20.12 to the quarter below it, not to the whole pixel after it.
    EXPECT_EQ(stamped({20.12, 20.0}, dot, 1.0), stamped({20.0, 20.0}, dot, 1.0));
    EXPECT_EQ(stamped({20.13, 20.0}, dot, 1.0), stamped({20.25, 20.0}, dot, 1.0));
    EXPECT_EQ(stamped({19.9, 20.0}, dot, 1.0), stamped({20.0, 20.0}, dot, 1.0));
    EXPECT_NE(stamped({20.13, 20.0}, dot, 1.0), stamped({20.0, 20.0}, dot, 1.0));
}

TEST(ReadingStamps, ShowAtTheEdgeToo) {
    const ReadingSymbol dot{.depth = true};
    EXPECT_LE(mostApart(stamped({-0.5, 0.25}, dot, 1.0), drawn({-0.5, 0.25}, dot, 1.0)), rounding);
    EXPECT_GT(mostApart(stamped({-0.5, 0.25}, dot, 1.0), ground()), 50);
}

TEST(ReadingStamps, LeaveThePainterAsItWas) {
    QImage image = ground();
    QPainter painter(&image);
    painter.translate(3.0, 4.0);
    const QTransform before = painter.worldTransform();
    ReadingStamps(painter, PaletteKind::Light, size).paint({10.0, 10.0}, soft);
    EXPECT_EQ(painter.worldTransform(), before);
}

} // namespace
} // namespace bedlore
