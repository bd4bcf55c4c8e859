// SPDX-License-Identifier: MIT
#include "gui/paint/depth_colours.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

// The shade of slopes. Light comes from the upper left of the sheet, as on printed maps, else hills
// are seen as hollows.

namespace bedlore {
namespace {

constexpr int cells = 21;

/// A plane bed, one step down in ten, that faces `facing`: its depth grows that way, and is the
/// same in the middle whatever way that is.
MapDrawing slopeThatFaces(double facing, double up) {
    const double angle = facing * degree / radian;
    Raster<float> depth(
        GridFrame{.west = 0.0, .north = cells, .cell = 1.0, .rows = cells, .columns = cells}, 0.0F);
    const Point middle = depth.frame.centre(cells / 2, cells / 2);
    for (int r = 0; r < cells; ++r) {
        for (int c = 0; c < cells; ++c) {
            const Point at = depth.frame.centre(r, c);
            const double out = (at.east - middle.east) * std::sin(angle) +
                               (at.north - middle.north) * std::cos(angle);
            depth.at(r, c) = static_cast<float>(3.0 + 0.1 * out);
        }
    }
    MapDrawing map;
    map.depth = std::make_shared<const Raster<float>>(std::move(depth));
    map.shallowest = 1.0;
    map.deepest = 5.0;
    map.contours.shown.emplace_back();
    map.up = PlaneBearing(up * degree);
    return map;
}

/// How light the middle of it is, 0 to 255.
int lightness(
    double facing, double up, bool isShaded = true, PaletteKind kind = PaletteKind::Light) {
    const DepthColours colours(slopeThatFaces(facing, up), kind, isShaded);
    QImage pixel(1, 1, QImage::Format_ARGB32_Premultiplied);
    pixel.fill(Qt::white);
    constexpr double middle = cells / 2.0;
    // The middle of the pixel is the middle of the slope.
    colours.fill(pixel, QTransform(1.0, 0.0, 0.0, -1.0, middle - 0.5, middle + 0.5));
    EXPECT_EQ(qAlpha(pixel.pixel(0, 0)), 255);
    return qGray(pixel.pixel(0, 0));
}

TEST(DepthColours, ColourAsMuchOfAPixelAsIsWanted) {
    const DepthColours colours(slopeThatFaces(315.0, 0.0), PaletteKind::Light, false);
    constexpr double middle = cells / 2.0;
    const auto colouredIn = [&](QRgb before, double east) {
        QImage pixel(1, 1, QImage::Format_ARGB32_Premultiplied);
        pixel.setPixel(0, 0, before);
        colours.fill(pixel, QTransform(1.0, 0.0, 0.0, -1.0, east - 0.5, middle + 0.5));
        return *reinterpret_cast<const QRgb*>(pixel.constScanLine(0));
    };
    const QRgb whole = colouredIn(qRgba(255, 255, 255, 255), middle);
    EXPECT_EQ(qAlpha(whole), 255);
    EXPECT_EQ(colouredIn(0, middle), 0U) << "nothing wanted";
    const QRgb part = colouredIn(qRgba(51, 51, 51, 51), middle);
    EXPECT_EQ(qAlpha(part), 51);
    EXPECT_NEAR(qBlue(part), qBlue(whole) / 5.0, 1.0) << "premultiplied: a fifth of it";
    EXPECT_EQ(colouredIn(qRgba(255, 255, 255, 255), -9.0), 0U) << "beside the map";
}

TEST(Shade, SlopeThatFacesTheUpperLeftIsLightAndOneThatFacesAwayIsDark) {
    // North up: the upper left is the north-west, 315°.
    const int plain = lightness(315.0, 0.0, false);
    EXPECT_GT(lightness(315.0, 0.0), plain);
    EXPECT_LT(lightness(135.0, 0.0), plain);
    for (const double facing : {270.0, 360.0}) {
        EXPECT_GT(lightness(facing, 0.0), plain) << facing;
        EXPECT_LT(lightness(facing, 0.0), lightness(315.0, 0.0)) << facing;
        EXPECT_LT(lightness(facing - 180.0, 0.0), plain) << facing;
    }
    // Across the light a slope is neither.
    EXPECT_EQ(lightness(45.0, 0.0), plain);
    EXPECT_EQ(lightness(225.0, 0.0), plain);
    EXPECT_EQ(lightness(315.0, 0.0, false), lightness(135.0, 0.0, false)) << "the same depth";
}

TEST(Shade, LightTurnsWithTheSheet) {
    // As seen from a bank from which one looks east: up is 90°, so the upper left is the
    // north-east.
    EXPECT_GT(lightness(45.0, 90.0), lightness(315.0, 90.0));
    EXPECT_GT(lightness(315.0, 90.0), lightness(225.0, 90.0));
}

TEST(Shade, FallsTheSameWayInEveryPalette) {
    for (const auto kind :
         {PaletteKind::Light, PaletteKind::Dark, PaletteKind::Night, PaletteKind::Print}) {
        EXPECT_GT(lightness(315.0, 0.0, true, kind), lightness(135.0, 0.0, true, kind))
            << static_cast<int>(kind);
    }
}

} // namespace
} // namespace bedlore
