// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"
#include "gui/paint/chart_painter.hpp"
#include "gui/paint/depth_colours.hpp"
#include "gui/paint/placed_chart.hpp"
#include "gui/paint/rimmed_words.hpp"
#include "gui/paint/symbol_painter.hpp"
#include "tests/support/drawn_pit.hpp"

#include <QFont>
#include <QGuiApplication>
#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <memory>
#include <utility>
#include <vector>

// What is on the canvas, pixel by pixel.

namespace bedlore {
namespace {

using testing::DrawnPit;

constexpr QRect canvas(0, 0, 600, 500);

/// Only the bed and what is not known round it.
ChartStyle bareStyle(PaletteKind kind) {
    ChartStyle style;
    style.palette = kind;
    style.hillshade = false;
    style.contours = false;
    style.casts = false;
    style.readings = false;
    style.marks = false;
    style.rings = false;
    style.furniture = false;
    return style;
}

/// The pit without the things that are drawn with their names.
MapDrawing bareMap() {
    MapDrawing map = DrawnPit().map(SharingTier::All);
    map.swims.clear();
    map.spots.clear();
    return map;
}

struct Painted {
    std::shared_ptr<const MapDrawing> map;
    ChartView view;
    QImage image{canvas.size(), QImage::Format_RGB32};

    explicit Painted(const ChartStyle& style, const MapDrawing& shown = bareMap()) {
        map = std::make_shared<const MapDrawing>(shown);
        view = viewOf(map->extent, map->up, QRectF(canvas), 40.0);
        image.fill(Qt::magenta);
        QPainter painter(&image);
        ChartPainter(map, style).paint(painter, view);
    }
};

/// How far a colour is from the straight line between two, and from its ends, in steps of a
/// channel.
double offLine(QColor colour, QColor from, QColor to) {
    const std::array<double, 3> along{
        double(to.red() - from.red()),
        double(to.green() - from.green()),
        double(to.blue() - from.blue())};
    const std::array<double, 3> at{
        double(colour.red() - from.red()),
        double(colour.green() - from.green()),
        double(colour.blue() - from.blue())};
    double dot = 0.0;
    double length = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        dot += along[i] * at[i];
        length += along[i] * along[i];
    }
    const double share = std::clamp(dot / length, 0.0, 1.0);
    double worst = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        worst = std::max(worst, std::abs(at[i] - share * along[i]));
    }
    return worst;
}

// A far corner of the canvas, where no cast went.
constexpr QRect corner(4, 4, 36, 36);

TEST(ChartPainter, HatchesWhatIsNotKnown) {
    const Painted painted(bareStyle(PaletteKind::Light));
    int alongSteps = 0;
    int acrossSteps = 0;
    for (int y = corner.top() + 1; y < corner.bottom(); ++y) {
        for (int x = corner.left() + 1; x < corner.right(); ++x) {
            const QRgb here = painted.image.pixel(x, y);
            alongSteps += here != painted.image.pixel(x + 1, y - 1) ? 1 : 0;
            acrossSteps += here != painted.image.pixel(x + 1, y + 1) ? 1 : 0;
        }
    }
    const int all = (corner.width() - 2) * (corner.height() - 2);
    // Source: the design. Hairlines 6 px apart at 45°: across them something changes at every line,
    // along them nothing does but for rounding.
    EXPECT_GT(acrossSteps, all / 6);
    EXPECT_LT(alongSteps, all / 20);
}

TEST(ChartPainter, GivesWhatIsNotKnownNoColourOfDepth) {
    const Painted painted(bareStyle(PaletteKind::Light));
    const Palette& colours = palette(PaletteKind::Light);
    constexpr double rounding = 2.0; // steps of 255, of a hairline smoothed over the paper
    for (int y = corner.top(); y <= corner.bottom(); ++y) {
        for (int x = corner.left(); x <= corner.right(); ++x) {
            EXPECT_LE(
                offLine(painted.image.pixelColor(x, y), colours.paper, colours.line), rounding)
                << x << " " << y;
        }
    }
}

TEST(ChartPainter, ColoursWhatIsKnownByItsDepth) {
    const Painted painted(bareStyle(PaletteKind::Light));
    const Raster<float>& depth = *painted.map->depth;
    int seen = 0;
    constexpr int inner = 3; // cells from the outline, which is drawn smoothed
    for (int r = inner; r + inner < depth.frame.rows; ++r) {
        for (int c = inner; c + inner < depth.frame.columns; ++c) {
            bool inside = true;
            for (int i = -inner; i <= inner; ++i) {
                for (int j = -inner; j <= inner; ++j) {
                    inside = inside && std::isfinite(depth.at(r + i, c + j));
                }
            }
            const Point p = depth.frame.centre(r, c);
            const QPoint at = painted.view.toView.map(QPointF(p.east, p.north)).toPoint();
            if (!inside || !canvas.contains(at)) {
                continue;
            }
            const QColor is = painted.image.pixelColor(at);
            const QColor wanted = depthColourOf(
                *painted.map, PaletteKind::Light, static_cast<double>(depth.at(r, c)));
            // Half a cell of a slope of at most 1 in 5 is a tenth of a metre: some 6 of 256 colours
            // of the ramp, of at most 3 steps each.
            EXPECT_NEAR(is.red(), wanted.red(), 18);
            EXPECT_NEAR(is.green(), wanted.green(), 18);
            EXPECT_NEAR(is.blue(), wanted.blue(), 18);
            ++seen;
        }
    }
    EXPECT_GT(seen, 1000);
}

bool isNear(QColor a, QColor b) {
    constexpr int smoothing = 30; // steps of 255: no pixel is covered by a thin slanting line alone
    return std::abs(a.red() - b.red()) <= smoothing &&
           std::abs(a.green() - b.green()) <= smoothing &&
           std::abs(a.blue() - b.blue()) <= smoothing;
}

/// Pixels of the accent colour near a place.
int accentNear(const QImage& image, QPointF at) {
    const QColor accent = palette(PaletteKind::Light).accent;
    int count = 0;
    for (int y = -7; y <= 7; ++y) {
        for (int x = -7; x <= 7; ++x) {
            const QPoint p = at.toPoint() + QPoint(x, y);
            count += image.rect().contains(p) && isNear(image.pixelColor(p), accent) ? 1 : 0;
        }
    }
    return count;
}

// The plan is painted in stripes by several threads.
TEST(ChartPainter, WritesTheSameWordsInStripesByThreads) {
    ChartStyle style;
    style.depthKey = true;
    style.levelWords = true;
    const auto map = std::make_shared<const MapDrawing>(DrawnPit().map(SharingTier::All));
    const ChartPainter chart(map, style);
    PlacedChart placed(
        chart, viewOf(map->extent, map->up, QRectF(canvas), 40.0), ChartPainter::Detail::Whole);
    placed.place();
    QImage whole(canvas.size(), QImage::Format_RGB32);
    whole.fill(Qt::white);
    {
        QPainter painter(&whole);
        placed.paintWords(painter, QRectF(canvas));
    }
    QImage blank(canvas.size(), QImage::Format_RGB32);
    blank.fill(Qt::white);
    ASSERT_NE(whole, blank) << "there are words";

    constexpr std::size_t count = 23; // edges run through words
    QImage striped = blank.copy();
    uchar* const bits = striped.bits();
    EXPECT_TRUE(inParallel(count, 4, {}, [&](std::size_t i) {
        const auto edge = [&](std::size_t k) {
            return static_cast<int>(k * static_cast<std::size_t>(canvas.height()) / count);
        };
        const QRect part(0, edge(i), canvas.width(), edge(i + 1) - edge(i));
        const auto pitch = static_cast<qsizetype>(4) * canvas.width();
        QImage stripe(
            bits + part.top() * pitch, part.width(), part.height(), pitch, QImage::Format_RGB32);
        QPainter painter(&stripe);
        painter.translate(0.0, -part.top());
        placed.paintWords(painter, QRectF(part));
    }));
    // Round shapes that are cut by an edge may be rounded otherwise there: by 2 of 255, seen.
    constexpr int most = 2;
    for (int y = 0; y < canvas.height(); ++y) {
        for (int x = 0; x < canvas.width(); ++x) {
            const QColor a = whole.pixelColor(x, y);
            const QColor b = striped.pixelColor(x, y);
            const int apart = std::max(
                {std::abs(a.red() - b.red()),
                 std::abs(a.green() - b.green()),
                 std::abs(a.blue() - b.blue())});
            ASSERT_LE(apart, most) << "at " << x << ", " << y;
        }
    }
}

TEST(ChartPainter, DrawsSpotsAsDiamondsInTheAccentColour) {
    Painted painted(bareStyle(PaletteKind::Light), DrawnPit().map(SharingTier::All));
    ASSERT_EQ(painted.map->spots.size(), 1U) << "the private one is left out";
    const Point spot = painted.map->spots.front().place;
    const QPointF at = painted.view.toView.map(QPointF(spot.east, spot.north));
    EXPECT_GT(accentNear(painted.image, at), 4);
    auto without = std::make_shared<MapDrawing>(*painted.map);
    without->spots.clear();
    QPainter painter(&painted.image);
    ChartPainter(without, bareStyle(PaletteKind::Light)).paint(painter, painted.view);
    EXPECT_EQ(accentNear(painted.image, at), 0);
}

TEST(ChartPainter, ShowsADepthKeyAtTheFootWhereItIsAskedFor) {
    ChartStyle style = bareStyle(PaletteKind::Light);
    const Painted without(style);
    style.depthKey = true;
    const Painted with(style);
    // In the middle of the foot, and nowhere else.
    const QRect foot(200, 400, 200, 100);
    int inside = 0;
    int outside = 0;
    for (int y = 0; y < canvas.height(); ++y) {
        for (int x = 0; x < canvas.width(); ++x) {
            const bool differs = with.image.pixel(x, y) != without.image.pixel(x, y);
            (foot.contains(x, y) ? inside : outside) += differs ? 1 : 0;
        }
    }
    EXPECT_GT(inside, 150 * 8) << "at least the bar of colours";
    EXPECT_EQ(outside, 0);
}

/// How many pixels two pictures have that differ.
int differing(const QImage& a, const QImage& b) {
    int count = 0;
    for (int y = 0; y < a.height(); ++y) {
        for (int x = 0; x < a.width(); ++x) {
            count += a.pixel(x, y) != b.pixel(x, y) ? 1 : 0;
        }
    }
    return count;
}

TEST(ChartPainter, ShowsADepthKeyAtEverySizeOfText) {
    for (const double larger : {1.0, 1.5, 2.0, 2.5}) {
        SCOPED_TRACE(larger);
        ChartStyle style = bareStyle(PaletteKind::Light);
        style.furniture = true;
        style.levelWords = true;
        style.textSize *= larger;
        const Painted without(style);
        style.depthKey = true;
        const Painted with(style);
        EXPECT_GT(differing(with.image, without.image), 60 * 8) << "at least the bar of colours";
    }
}

QImage letter(const QString& text) {
    QImage image(40, 40, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    QFont font = QGuiApplication::font();
    font.setPixelSize(24);
    paintRimmedWords(
        painter, {8.0, 30.0}, text, font, {.ink = Qt::black, .rim = Qt::white, .width = 1.0});
    return image;
}

TEST(Fonts, DrawDifferentLettersDifferently) {
    // Without a font on the machine every letter would be the same box.
    for (const auto& [one, other] : {std::pair(u"m", u"A"), {u"½", u"¾"}, {u"6", u"9"}}) {
        EXPECT_NE(letter(QString::fromUtf16(one)), letter(QString::fromUtf16(other)));
    }
    EXPECT_EQ(letter(QStringLiteral("m")), letter(QStringLiteral("m")));
}

/// The mean darkness of the pit in lines on white, on a screen with so many pixels to a unit.
double inkAt(double ratio) {
    ChartStyle style;
    style.fill = DepthFill::Plain;
    style.furniture = false;
    const auto map = std::make_shared<const MapDrawing>(bareMap());
    QImage image(canvas.size() * ratio, QImage::Format_RGB32);
    image.setDevicePixelRatio(ratio);
    image.fill(Qt::white);
    QPainter painter(&image);
    ChartPainter(map, style).paint(painter, viewOf(map->extent, map->up, QRectF(canvas), 40.0));
    painter.end();
    double sum = 0.0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            sum += 255 - qGray(image.pixel(x, y));
        }
    }
    return sum / (double(image.width()) * image.height());
}

TEST(ChartPainter, LinesAreAsWideOnAFinerScreen) {
    // A line that stayed one pixel wide would leave a third of its ink at a ratio of 3. Lines of
    // less than a pixel, as most are at a ratio of 1, come out up to a tenth too faint there.
    const double ink = inkAt(1.0);
    for (const double ratio : {1.5, 2.0, 3.0}) {
        EXPECT_NEAR(inkAt(ratio), ink, 0.15 * ink) << ratio;
    }
}

TEST(ChartPainter, SaysTheLevelAtTheFootWhereItLeavesTheBedFree) {
    ChartStyle style = bareStyle(PaletteKind::Light);
    style.levelWords = true;
    const Painted said(style);
    ASSERT_FALSE(said.map->levelWords.empty());
    const QImage silent = Painted(bareStyle(PaletteKind::Light)).image;
    QRect changed;
    for (int y = 0; y < silent.height(); ++y) {
        for (int x = 0; x < silent.width(); ++x) {
            if (said.image.pixel(x, y) != silent.pixel(x, y)) {
                changed = changed.united(QRect(x, y, 1, 1));
            }
        }
    }
    EXPECT_GT(changed.width(), 100);
    EXPECT_GT(changed.top(), canvas.height() / 2);
    EXPECT_LT(changed.center().x(), canvas.width() / 2);
    // Letters so large that there is no room for them.
    style.textSize = 60.0;
    EXPECT_EQ(Painted(style).image, silent);
}

TEST(ChartPainter, SaysTheLevelOnASheetWhereItStandsOnTheBed) {
    ChartStyle style = bareStyle(PaletteKind::Light);
    style.levelWords = true;
    style.textSize = 14.0;
    // Nearer, so that there is bed everywhere.
    const auto map = std::make_shared<const MapDrawing>(bareMap());
    ChartView view = viewOf(map->extent, map->up, QRectF(canvas), 40.0);
    const QPointF middle = QRectF(canvas).center();
    view.toView = view.toView * QTransform::fromTranslate(-middle.x(), -middle.y()) *
                  QTransform::fromScale(6.0, 6.0) *
                  QTransform::fromTranslate(middle.x(), middle.y());
    const auto painted = [&](const ChartStyle& wanted) {
        QImage image(canvas.size(), QImage::Format_RGB32);
        image.fill(Qt::magenta);
        QPainter painter(&image);
        ChartPainter(map, wanted).paint(painter, view);
        return image;
    };
    const QImage said = painted(style);
    style.levelWords = false;
    const QImage silent = painted(style);
    int paper = 0;
    int changed = 0;
    for (int y = canvas.height() / 2; y < canvas.height(); ++y) {
        for (int x = 0; x < canvas.width() / 2; ++x) {
            changed += said.pixel(x, y) != silent.pixel(x, y) ? 1 : 0;
            // Four fifths paper, whatever depth is below.
            paper +=
                said.pixel(x, y) != silent.pixel(x, y) && said.pixelColor(x, y).lightness() > 190
                    ? 1
                    : 0;
        }
    }
    EXPECT_GT(changed, 2000);
    EXPECT_GT(paper, changed / 2) << "letters stand on a sheet of it";
}

/// A bare map with readings at these places, the first of them a tap.
MapDrawing tapAmong(const std::vector<Point>& places) {
    MapDrawing map = bareMap();
    map.casts.resize(1);
    map.readings.clear();
    for (const Point place : places) {
        DrawnReading reading;
        reading.placed.place = place;
        reading.drop = DropSymbol::Hard;
        map.readings.push_back(reading);
    }
    map.readings.front().pull = Pull::Tap;
    return map;
}

MapDrawing withoutPull(MapDrawing map) {
    map.readings.front().pull.reset();
    return map;
}

TEST(ChartPainter, ShowsThePullBelowAReadingWhereThereIsRoom) {
    ChartStyle style = bareStyle(PaletteKind::Light);
    style.readings = true;
    const Point place{4.0, 63.0};
    const MapDrawing alone = tapAmong({place});
    const Painted painted(style, alone);
    EXPECT_NE(painted.image, Painted(style, withoutPull(alone)).image);
    // Another reading where the tap would stand.
    const QPointF at = painted.view.toView.map(QPointF(place.east, place.north));
    const QPointF below =
        painted.view.toView.inverted().map(pullBelow(at, {.drop = DropSymbol::Hard}, style.size));
    const MapDrawing crowded = tapAmong({place, {below.x(), below.y()}});
    EXPECT_EQ(Painted(style, crowded).image, Painted(style, withoutPull(crowded)).image);
}

TEST(ChartPainter, ShowsAReadingOfNothingButItsBottom) {
    ChartStyle style = bareStyle(PaletteKind::Light);
    style.readings = true;
    MapDrawing map = withoutPull(tapAmong({{4.0, 63.0}}));
    map.readings.front().drop = DropSymbol::None;
    const QImage nothing = Painted(style, map).image;
    map.readings.front().substrate = Substrate::Gravel;
    const QImage gravel = Painted(style, map).image;
    map.readings.front().substrate = Substrate::Silt;
    EXPECT_NE(gravel, nothing);
    EXPECT_NE(gravel, Painted(style, map).image);
}

} // namespace
} // namespace bedlore
