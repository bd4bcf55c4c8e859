// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_overlay.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <QGuiApplication>
#include <gtest/gtest.h>

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
        const PlacedRings rings = placeRings(fontOf(points), *picture, overlay, view, letters);
        EXPECT_FALSE(rings.radii.empty());
        EXPECT_FALSE(rings.numbers.empty());
        std::vector<PlacedWords> all = letters;
        all.insert(all.end(), rings.numbers.begin(), rings.numbers.end());
        expectApart(all);
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

} // namespace
} // namespace bedlore
