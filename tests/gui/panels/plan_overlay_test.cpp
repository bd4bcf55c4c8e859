// SPDX-License-Identifier: MIT
#include "gui/paint/depth_colours.hpp"
#include "gui/paint/placed_chart.hpp"
#include "gui/plan_view/plan_overlay.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <QGuiApplication>
#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace bedlore {
namespace {

QFont fontOf(double points) {
    QFont font = QGuiApplication::font();
    font.setPointSizeF(points);
    return font;
}

/// A fan of `count` aims `apart` degrees apart, all reaching 100 m.
PlanOverlay fan(int count, double apart) {
    PlanOverlay overlay;
    for (int i = 0; i < count; ++i) {
        AimLine aim;
        aim.label = std::string(1, static_cast<char>('A' + i));
        aim.direction = PlaneBearing((i - count / 2) * apart * degree);
        aim.reach = 100.0_m;
        aim.tipHeight = 6.0_ft;
        aim.wrap = 12.0_ft;
        overlay.aims.push_back(aim);
    }
    return overlay;
}

/// Three pixels a metre, the tip at the foot of a window of 640 × 420.
QTransform lookFromBank() {
    return QTransform(3.0, 0.0, 0.0, -3.0, 320.0, 400.0);
}

std::vector<QRectF> boxesOf(const std::vector<PlacedWords>& words) {
    std::vector<QRectF> boxes;
    for (const PlacedWords& one : words) {
        boxes.push_back(one.box);
    }
    return boxes;
}

void expectApart(const std::vector<PlacedWords>& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            EXPECT_FALSE(words[i].box.intersects(words[j].box))
                << words[i].text.toStdString() << " and " << words[j].text.toStdString();
        }
    }
}

TEST(AimLetters, StandApartAtEverySizeOfText) {
    for (const double points : {10.5, 15.75, 26.25}) {
        SCOPED_TRACE(points);
        const auto letters = placeLetters(fontOf(points), fan(7, 3.0), lookFromBank());
        ASSERT_EQ(letters.size(), 7U);
        expectApart(letters);
    }
}

TEST(AimLetters, StandBeyondTheFarthestReading) {
    const auto letters = placeLetters(fontOf(10.5), fan(1, 0.0), lookFromBank());
    ASSERT_EQ(letters.size(), 1U);
    // Source: by hand. 100 m at 3 px/m above the tip at y = 400 is y = 100.
    EXPECT_LT(letters[0].box.bottom(), 100.0);
    EXPECT_GT(letters[0].box.bottom(), 70.0) << "and not far from it";
}

TEST(RingNumbers, KeepClearOfTheLettersAndOfEachOther) {
    const testing::TypedBook typed(
        {"aim A = 0",
         "aim B = 10",
         "aim C = 20",
         "A 30 9",
         "20 8",
         "B 30 9",
         "20 8",
         "C 30 9",
         "20 7"});
    const auto map = makeBedMap(typed.document->book(), typed.request());
    ASSERT_TRUE(map.has_value());
    const auto picture = drawBed(*map, {});
    PlanOverlay overlay;
    overlay.aims = aimLines(**map, std::nullopt);
    ASSERT_EQ(overlay.aims.size(), 3U);
    const QRectF window(0.0, 0.0, 640.0, 420.0);
    const ChartView view = viewOf(picture->drawing->extent, {}, window, 48.0);
    for (const double points : {10.5, 26.25}) {
        SCOPED_TRACE(points);
        const auto letters = placeLetters(fontOf(points), overlay, view.toView);
        const PlacedRings rings =
            placeRings(fontOf(points), *picture, overlay, view, boxesOf(letters));
        EXPECT_FALSE(rings.radii.empty());
        EXPECT_FALSE(rings.numbers.empty());
        std::vector<PlacedWords> all = letters;
        all.insert(all.end(), rings.numbers.begin(), rings.numbers.end());
        expectApart(all);
    }
}

/// A fan without a single degree, in wraps and feet.
struct GuessedFan {
    testing::TypedBook typed{
        {"A 24 6", "18 7", "10 4", "B 26 9", "19 9", "9 5", "C 30 10", "21 7", "8 5"}};
    std::shared_ptr<const BedMap> map = *makeBedMap(typed.document->book(), typed.request());
    PlanOverlay overlay;
    GuessedFan() { overlay.aims = aimLines(*map, std::nullopt); }
};

TEST(RingNumbers, KeepClearOfTheWordsAboutTheWholeMap) {
    const GuessedFan fan;
    ASSERT_EQ(fan.overlay.aims.size(), 3U);
    ASSERT_TRUE(fan.overlay.aims.front().guessed);
    for (const double larger : {1.0, 1.5, 2.5}) {
        SCOPED_TRACE(larger);
        MapLook look;
        look.textSize *= larger;
        const auto picture = drawBed(fan.map, look);
        const QFont font = fontOf(10.5 * larger);
        const ChartView view =
            viewOf(picture->drawing->extent, {}, QRectF(0.0, 0.0, 590.0, 330.0), 40.0);
        PlacedChart chart(*picture->painter, view, ChartPainter::Detail::Whole);
        const auto letters = boxesOf(placeLetters(font, fan.overlay, view.toView));
        chart.keepClear(letters);
        const std::vector<QRectF> first = chart.boxesOfFirst();
        // At least the scale bar, "angles guessed", the swim and its name.
        ASSERT_GE(first.size(), letters.size() + 4);
        const PlacedRings rings = placeRings(font, *picture, fan.overlay, view, first);
        ASSERT_FALSE(rings.numbers.empty());
        for (const PlacedWords& number : rings.numbers) {
            for (const QRectF& box : first) {
                EXPECT_FALSE(number.box.intersects(box)) << number.text.toStdString();
            }
        }
    }
}

TEST(RingNumbers, AmongDepthsStandOnASheetOfPaper) {
    const GuessedFan fan;
    const auto picture = drawBed(fan.map, {});
    const Extent& all = picture->drawing->extent;
    // So near that nothing but the bed is in the window.
    const Point middle = placeOn(fan.overlay.aims[1].tip, fan.overlay.aims[1].direction, 55.0_m);
    ChartView view = viewOf(all, {}, QRectF(0.0, 0.0, 640.0, 420.0), 0.0);
    const double scale = 60.0;
    view.toView = QTransform(
        scale, 0.0, 0.0, -scale, 320.0 - scale * middle.east, 210.0 + scale * middle.north);
    const PlacedRings rings = placeRings(fontOf(10.5), *picture, fan.overlay, view, {});
    ASSERT_FALSE(rings.numbers.empty());
    for (const PlacedWords& number : rings.numbers) {
        EXPECT_TRUE(number.onSheet) << number.text.toStdString();
        EXPECT_TRUE(number.text.contains(QStringLiteral("wraps"))) << number.text.toStdString();
    }
}

TEST(RingNumbers, AreNotThereWhenRingsAreHidden) {
    const testing::TypedBook typed({"aim A = 0", "A 30 9", "20 8"});
    const auto map = makeBedMap(typed.document->book(), typed.request());
    ASSERT_TRUE(map.has_value());
    MapLook look;
    look.layers.rings = false;
    const auto picture = drawBed(*map, look);
    const ChartView view =
        viewOf(picture->drawing->extent, {}, QRectF(0.0, 0.0, 640.0, 420.0), 48.0);
    EXPECT_TRUE(placeRings(fontOf(10.5), *picture, {}, view, {}).radii.empty());
}

/// The contrast of two colours after WCAG 2.1, "contrast ratio".
double contrast(QColor a, QColor b) {
    const auto light = [](QColor colour) {
        const auto linear = [](double c) {
            return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
        };
        return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
               0.0722 * linear(colour.blueF());
    };
    const double one = light(a) + 0.05;
    const double other = light(b) + 0.05;
    return std::max(one, other) / std::min(one, other);
}

/// The greatest contrast that a sign has with the ground on which it is painted.
template <class Paint>
double contrastOn(QColor ground, const Paint& paint) {
    QImage image(48, 48, QImage::Format_RGB32);
    image.fill(ground);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    paint(painter);
    painter.end();
    double most = 1.0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            most = std::max(most, contrast(ground, image.pixelColor(x, y)));
        }
    }
    return most;
}

TEST(ChosenPlace, IsSeenOnEveryDepthInEveryPalette) {
    // Source: WCAG 2.1, 1.4.11: graphical objects have a contrast of 3 : 1 at least.
    constexpr double least = 3.0;
    MapDrawing map;
    map.deepest = 1.0;
    for (const PaletteKind kind : {PaletteKind::Light, PaletteKind::Dark, PaletteKind::Night}) {
        SCOPED_TRACE(static_cast<int>(kind));
        for (int i = 0; i <= 64; ++i) {
            SCOPED_TRACE(i);
            const QColor ground = depthColourOf(map, kind, i / 64.0);
            EXPECT_GE(
                contrastOn(
                    ground,
                    [&](QPainter& painter) {
                        paintKeyPointer(painter, {24.0, 24.0}, kind);
                    }),
                least);
            PlanOverlay overlay;
            overlay.chosenPlace = Point{};
            EXPECT_GE(
                contrastOn(
                    ground,
                    [&](QPainter& painter) {
                        paintChosen(painter, overlay, QTransform::fromTranslate(24.0, 24.0), kind);
                    }),
                least);
        }
    }
}

} // namespace
} // namespace bedlore
