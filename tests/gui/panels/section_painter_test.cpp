// SPDX-License-Identifier: MIT
#include "gui/section_view/section_painter.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <QFontMetricsF>
#include <QGuiApplication>
#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

constexpr QRectF window(0.0, 0.0, 640.0, 190.0);

QFont fontOf(double points) {
    QFont font = QGuiApplication::font();
    font.setPointSizeF(points);
    return font;
}

/// A level bed 3 m down, known to half a metre, but for its last sample.
SectionProfile levelBed() {
    SectionProfile section;
    section.tipHeight = 2.0;
    section.reach = 100.0;
    section.sampledTo = 100.0;
    section.deepest = 3.0;
    for (int i = 0; i <= 100; ++i) {
        section.samples.push_back(
            {.range = double(i), .depth = 3.0, .sigma = i == 100 ? 50.0 : 0.5, .known = i < 100});
    }
    return section;
}

TEST(SectionScale, LeavesRoomForHowUnsureTheBedIs) {
    const SectionScale scale = scaleOf(levelBed(), window, fontOf(9.5));
    // Source: by hand. 19 of 20 within 1.96 errors: 3 + 1.96 × 0.5 = 3.98 m.
    EXPECT_LE(scale.y(3.98), scale.plot.bottom());
    EXPECT_GT(scale.below, 3.98);
    EXPECT_LT(scale.below, 6.0) << "what is not known takes no room";
}

TEST(SectionScale, SharesThePlansScaleWhereTheWidthSuits) {
    SectionProfile section = levelBed();
    section.sampledTo = 170.0;
    const SectionScale own = scaleOf(section, window, fontOf(9.5));
    EXPECT_EQ(own.reach, 100.0);
    EXPECT_FALSE(own.sharesPlan);
    // Source: by hand. As many pixels for a metre as show 120 m in this width.
    const double suits = own.plot.width() / 120.0;
    const SectionScale shared = scaleOf(section, window, fontOf(9.5), suits);
    EXPECT_TRUE(shared.sharesPlan);
    EXPECT_NEAR(shared.reach, 120.0, 1e-9);
    EXPECT_NEAR(shared.x(50.0) - shared.x(0.0), 50.0 * suits, 1e-9);
    // Nearer, and the far end would not be seen; farther, and most of the width would be wasted.
    for (const double other : {own.plot.width() / 90.0, own.plot.width() / 300.0, 0.0}) {
        EXPECT_EQ(scaleOf(section, window, fontOf(9.5), other).reach, 100.0) << other;
    }
}

TEST(SectionScale, SaysHowMuchTallerDepthsAre) {
    const SectionScale scale = scaleOf(levelBed(), window, fontOf(9.5));
    // Source: by hand. A metre down over a metre along, both in pixels.
    EXPECT_NEAR(
        scale.taller(), (scale.y(1.0) - scale.y(0.0)) / (scale.x(1.0) - scale.x(0.0)), 1e-9);
}

TEST(SectionScale, HoldsABandOfAnySizeToTwiceTheDepth) {
    SectionProfile section = levelBed();
    section.samples.front().sigma = 1000.0;
    // Source: by hand. Twice 3 m and a twentieth of it: 6.3 m.
    EXPECT_NEAR(scaleOf(section, window, fontOf(9.5)).below, 6.3, 1e-9);
}

TEST(SectionScale, LeavesRoomForTheWordUnderAStretch) {
    SectionProfile section = levelBed();
    SectionReading silt;
    silt.range = 60.0;
    silt.to = 50.0;
    silt.substrate = Substrate::Silt;
    section.readings.push_back(silt);
    for (const double points : {9.5, 14.25}) { // usual and largest text
        const SectionScale scale = scaleOf(section, window, fontOf(points));
        const double line = QFontMetricsF(fontOf(points)).height();
        EXPECT_LE(scale.y(3.0) + 9.0 + line, scale.plot.bottom()) << "a strip, then the word";
        EXPECT_GE(window.bottom() - scale.plot.bottom(), line + 6.0) << "numbers under the plot";
    }
}

// ---- What is painted: the same side view with a thing and without it, pixel by pixel

constexpr PaletteKind bothPalettes[]{PaletteKind::Light, PaletteKind::Dark};

class SectionPicture : public ::testing::TestWithParam<PaletteKind> {
protected:
    SectionPicture() {
        section.deepest = 6.0; // more than any band below: every picture has the same scale
    }
    /// Without a line where no place is chosen.
    [[nodiscard]] QImage paint(const SectionProfile& profile) const {
        QImage image(window.size().toSize(), QImage::Format_RGB32);
        QPainter painter(&image);
        painter.setFont(fontOf(9.5));
        SectionStyle style;
        style.palette = GetParam();
        style.chosenRange = chosen;
        paintSection(painter, *map, profile, style, window);
        return image;
    }
    [[nodiscard]] SectionProfile with(const SectionReading& reading) const {
        SectionProfile profile = section;
        profile.readings.push_back(reading);
        return profile;
    }
    [[nodiscard]] QPoint pixel(double range, double depth) const {
        return scaleOf(section, window, fontOf(9.5)).at(range, depth).toPoint();
    }
    /// The box round all pixels in which they differ; empty where they are the same.
    [[nodiscard]] static QRect difference(const QImage& a, const QImage& b) {
        QRect box;
        for (int y = 0; y < a.height(); ++y) {
            for (int x = 0; x < a.width(); ++x) {
                if (a.pixel(x, y) != b.pixel(x, y)) {
                    box |= QRect(x, y, 1, 1);
                }
            }
        }
        return box;
    }
    /// They differ, and nowhere but within `reach` pixels of what was added from `first` to `last`.
    static void
    expectDifferOnlyNear(const QImage& a, const QImage& b, QPoint first, QPoint last, int reach) {
        const QRect box = difference(a, b);
        EXPECT_FALSE(box.isEmpty()) << "it is not painted";
        const QRect allowed =
            QRect(first, last).normalized().adjusted(-reach, -reach, reach, reach);
        EXPECT_TRUE(allowed.contains(box))
            << box.left() << ".." << box.right() << ", " << box.top() << ".." << box.bottom();
    }

    testing::TypedBook typed{{"aim A = 0 true", "A 28 9", "20 8"}};
    std::shared_ptr<const BedMap> map = makeBedMap(typed.document->book(), typed.request()).value();
    SectionProfile section = levelBed();
    std::optional<double> chosen;
};

TEST_P(SectionPicture, HasTheLineFromTheTipToTheChosenPlace) {
    const QImage without = paint(section);
    chosen = 50.0;
    const QImage there = paint(section);
    expectDifferOnlyNear(without, there, pixel(0.0, -2.0), pixel(50.0, 3.0), 5);
    // Source: by hand. From the tip 2 m above the water to the bed 3 m below it: half way out it
    // is half a metre under the surface.
    const QPoint middle = pixel(25.0, 0.5);
    EXPECT_FALSE(difference(
                     without.copy(QRect(middle - QPoint(3, 3), middle + QPoint(3, 3))),
                     there.copy(QRect(middle - QPoint(3, 3), middle + QPoint(3, 3))))
                     .isEmpty());
}

TEST_P(SectionPicture, HasABrokenLineAndNoLeadWhereTheBedIsNotKnown) {
    for (std::size_t i = 40; i < 60; ++i) {
        section.samples[i].known = false;
    }
    const QImage without = paint(section);
    chosen = 50.0;
    const QImage there = paint(section);
    // A lead on the surface would say that the bed is there.
    const QPoint surface = pixel(50.0, 0.0);
    for (const QPoint& aside : {QPoint(-2, 2), QPoint(2, 2), QPoint(2, -2)}) {
        EXPECT_EQ(there.pixel(surface + aside), without.pixel(surface + aside));
    }
    // The upright under it is broken: somewhere painted, somewhere not, from top to foot.
    int painted = 0;
    int open = 0;
    for (int y = surface.y() + 3; y < pixel(50.0, 6.0).y(); ++y) {
        const bool differs = there.pixel(surface.x(), y) != without.pixel(surface.x(), y) ||
                             there.pixel(surface.x() - 1, y) != without.pixel(surface.x() - 1, y);
        (differs ? painted : open) += 1;
    }
    EXPECT_GT(painted, 10);
    EXPECT_GT(open, 10);
}

TEST_P(SectionPicture, HasTheLineToTheFarthestDepthWhereNoPlaceIsChosen) {
    SectionReading felt;
    felt.range = 70.0;
    const QImage without = paint(with(felt));
    felt.depth = 3.0;
    const QImage there = paint(with(felt));
    const QPoint middle = pixel(35.0, 0.5); // by hand, as above
    EXPECT_FALSE(difference(
                     without.copy(QRect(middle - QPoint(3, 3), middle + QPoint(3, 3))),
                     there.copy(QRect(middle - QPoint(3, 3), middle + QPoint(3, 3))))
                     .isEmpty());
}

TEST_P(SectionPicture, HasABandAsWideAsHeIsUnsure) {
    const QImage unsure = paint(section);
    SectionProfile sharp = section;
    for (SectionSample& sample : sharp.samples) {
        sample.sigma = 0.0;
    }
    const QImage sure = paint(sharp);
    // Source: by hand. 19 of 20 within 1.96 × 0.5 = 0.98 m: from 2.02 m to 3.98 m.
    for (const double inside : {2.2, 2.7, 3.3, 3.8}) {
        EXPECT_NE(unsure.pixel(pixel(30.0, inside)), sure.pixel(pixel(30.0, inside))) << inside;
    }
    for (const double outside : {1.8, 4.2}) {
        EXPECT_EQ(unsure.pixel(pixel(30.0, outside)), sure.pixel(pixel(30.0, outside))) << outside;
    }
    SectionProfile halved = section;
    for (SectionSample& sample : halved.samples) {
        sample.sigma *= 0.5;
    }
    EXPECT_EQ(paint(halved).pixel(pixel(30.0, 3.8)), sure.pixel(pixel(30.0, 3.8)));
    EXPECT_NE(paint(halved).pixel(pixel(30.0, 3.3)), sure.pixel(pixel(30.0, 3.3)));
}

TEST_P(SectionPicture, HasTheBedAsALine) {
    const QImage level = paint(section);
    const QRgb bed = level.pixel(pixel(30.0, 3.0));
    EXPECT_NE(bed, level.pixel(pixel(30.0, 2.7)));
    EXPECT_NE(bed, level.pixel(pixel(30.0, 3.3)));
}

TEST_P(SectionPicture, HasAHatchWhereTheBedIsNotKnown) {
    SectionProfile gap = section;
    for (std::size_t i = 40; i < 60; ++i) {
        gap.samples[i].known = false;
    }
    const QImage hatched = paint(gap);
    const QRect ground(pixel(45.0, 0.4), pixel(55.0, 1.6)); // over the bed and its band
    const QImage part = hatched.copy(ground);
    const QImage open = paint(section).copy(ground);
    EXPECT_FALSE(difference(part, open).isEmpty());
}

TEST_P(SectionPicture, HasASignOfItsOwnForEachDrop) {
    for (const std::optional<double> depth : {std::optional(3.0), std::optional<double>()}) {
        SectionReading reading;
        reading.range = 60.0;
        reading.depth = depth;
        std::vector<QImage> pictures;
        for (const DropSymbol drop : {DropSymbol::None, DropSymbol::Hard, DropSymbol::Soft}) {
            reading.drop = drop;
            pictures.push_back(paint(with(reading)));
            for (std::size_t other = 0; other + 1 < pictures.size(); ++other) {
                SCOPED_TRACE(other);
                expectDifferOnlyNear(
                    pictures[other], pictures.back(), pixel(60.0, 3.0), pixel(60.0, 3.0), 22);
            }
        }
        EXPECT_FALSE(difference(paint(section), pictures.front()).isEmpty())
            << "a reading without a drop has a sign too";
    }
}

TEST_P(SectionPicture, HasAStripForAStretchOfEachBottom) {
    SectionReading reading;
    reading.range = 60.0;
    reading.substrate = Substrate::Gravel;
    const QImage without = paint(with(reading));
    reading.to = 40.0;
    const QImage gravel = paint(with(reading));
    reading.substrate = Substrate::Silt;
    const QImage silt = paint(with(reading));
    // A strip of 7 px, 4 px under the bed (section_painter.cpp).
    const QRect strip(pixel(41.0, 3.0) + QPoint(0, 5), pixel(56.0, 3.0) + QPoint(0, 10));
    EXPECT_FALSE(difference(without.copy(strip), gravel.copy(strip)).isEmpty());
    EXPECT_FALSE(difference(silt.copy(strip), gravel.copy(strip)).isEmpty());
    // The word under it.
    const QRect word(pixel(45.0, 3.0) + QPoint(0, 14), pixel(55.0, 3.0) + QPoint(0, 24));
    EXPECT_FALSE(difference(without.copy(word), gravel.copy(word)).isEmpty());
    EXPECT_FALSE(difference(silt.copy(word), gravel.copy(word)).isEmpty());
}

INSTANTIATE_TEST_SUITE_P(
    Palettes,
    SectionPicture,
    ::testing::ValuesIn(bothPalettes),
    [](const ::testing::TestParamInfo<PaletteKind>& kind) {
        return kind.param == PaletteKind::Light ? "Light" : "Dark";
    });

} // namespace
} // namespace bedlore
