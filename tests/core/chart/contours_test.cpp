// SPDX-License-Identifier: MIT
#include "core/chart/contours.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <random>

namespace bedlore {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr float unknown = std::numeric_limits<float>::quiet_NaN();

Raster<float> sampled(const GridFrame& frame, const std::function<double(Point)>& depth) {
    Raster<float> raster(frame, 0.0F);
    for (int r = 0; r < frame.rows; ++r) {
        for (int c = 0; c < frame.columns; ++c) {
            raster.at(r, c) = static_cast<float>(depth(frame.centre(r, c)));
        }
    }
    return raster;
}

LevelTable tableAt(const std::vector<double>& depths) {
    LevelTable table;
    for (const double depth : depths) {
        table.levels.push_back({.depth = depth, .label = "", .bold = false, .labelled = false});
    }
    return table;
}

double totalArea(const std::vector<Polygon>& areas) {
    double sum = 0.0;
    for (const Polygon& polygon : areas) {
        sum += area(polygon);
    }
    return sum;
}

double knownArea(const Raster<float>& depth) {
    double cells = 0.0;
    for (const float value : depth.values) {
        cells += std::isfinite(value) ? 1.0 : 0.0;
    }
    return cells * depth.frame.cell * depth.frame.cell;
}

struct Piece {
    Point a;
    Point b;
    std::size_t line;
    std::size_t order;
    std::size_t count;
    bool closed;
};

std::vector<Piece> piecesOf(const Contours& contours) {
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < contours.lines.size(); ++i) {
        const ContourLine& line = contours.lines[i];
        const std::size_t n = line.vertices.size();
        const std::size_t count = line.closed ? n : n - 1;
        for (std::size_t k = 0; k < count; ++k) {
            pieces.push_back(
                {line.vertices[k], line.vertices[(k + 1) % n], i, k, count, line.closed});
        }
    }
    return pieces;
}

double turn(Point a, Point b, Point c) {
    return (b.east - a.east) * (c.north - a.north) - (b.north - a.north) * (c.east - a.east);
}

// Settles pieces of one straight line, which have no turn between them.
bool boxesApart(const Piece& p, const Piece& q) {
    return std::max(p.a.east, p.b.east) < std::min(q.a.east, q.b.east) ||
           std::max(q.a.east, q.b.east) < std::min(p.a.east, p.b.east) ||
           std::max(p.a.north, p.b.north) < std::min(q.a.north, q.b.north) ||
           std::max(q.a.north, q.b.north) < std::min(p.a.north, p.b.north);
}

bool neighbours(const Piece& p, const Piece& q) {
    return p.line == q.line &&
           (p.order + 1 == q.order || q.order + 1 == p.order ||
            (p.closed && (p.order + q.order == p.count - 1) && (p.order == 0 || q.order == 0)));
}

// Every pair of pieces, by brute force: independent of how the program looks for them.
void expectNoCrossings(const Contours& contours) {
    const std::vector<Piece> pieces = piecesOf(contours);
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (std::size_t j = i + 1; j < pieces.size(); ++j) {
            const Piece& p = pieces[i];
            const Piece& q = pieces[j];
            if (neighbours(p, q)) {
                continue;
            }
            const bool apart = turn(p.a, p.b, q.a) * turn(p.a, p.b, q.b) > 0.0 ||
                               turn(q.a, q.b, p.a) * turn(q.a, q.b, p.b) > 0.0;
            ASSERT_TRUE(apart || boxesApart(p, q)) << "lines " << p.line << " and " << q.line
                                                   << " near " << p.a.east << " " << p.a.north;
        }
    }
}

void expectPartition(const Contours& contours, const Raster<float>& depth) {
    double sum = 0.0;
    for (const DepthBand& band : contours.bands) {
        EXPECT_LT(band.from, band.to);
        for (const Polygon& polygon : band.areas) {
            EXPECT_GT(signedArea(polygon.outer), 0.0);
            for (const Ring& hole : polygon.holes) {
                EXPECT_LT(signedArea(hole), 0.0);
            }
        }
        sum += totalArea(band.areas);
    }
    EXPECT_NEAR(sum, knownArea(depth), 1e-6 * knownArea(depth));
    EXPECT_NEAR(totalArea(contours.shown), knownArea(depth), 1e-6 * knownArea(depth));
}

// A rough bed from a fixed seed: rougher than any lake, so that lines come close to one another.
Raster<float> roughBed(unsigned seed, double holes) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    Raster<float> raster(
        {.west = -10.0, .north = 20.0, .cell = 0.5, .rows = 34, .columns = 41}, 0.0F);
    for (float& value : raster.values) {
        value = static_cast<float>(4.0 * share(random));
        if (share(random) < holes) {
            value = unknown;
        }
    }
    return raster;
}

constexpr double radius = 50.0;
constexpr double depthAtMiddle = 6.0;

TEST(Contours, OfAParaboloidAreCirclesOfTheRightRadius) {
    // Source: by hand. Depth D (1 - (r/R)²) with R = 50 m, D = 6 m reaches depth z at
    // r = R sqrt(1 - z/D), and the area deeper than z is pi R² (1 - z/D).
    const GridFrame frame{.west = -60.0, .north = 60.0, .cell = 1.0, .rows = 120, .columns = 120};
    const auto depth = sampled(frame, [](Point p) {
        return depthAtMiddle * (1.0 - (p.east * p.east + p.north * p.north) / (radius * radius));
    });
    const std::vector<double> levels{1.0, 2.5, 4.0, 5.5};
    const Contours contours = contoursOf(depth, tableAt(levels));
    ASSERT_THAT(contours.lines, SizeIs(levels.size()));
    for (const ContourLine& line : contours.lines) {
        const double expected = radius * std::sqrt(1.0 - line.depth / depthAtMiddle);
        EXPECT_TRUE(line.closed);
        EXPECT_GT(signedArea(line.vertices), 0.0) << "deeper water is on its left";
        // The mesh is a chord of the paraboloid: at most D cell²/(4 R²) = 0.0006 m too shallow,
        // which is less than 0.02 m sideways where it is flattest here; simplified by 0.05 m.
        for (const Point p : line.vertices) {
            EXPECT_NEAR(std::hypot(p.east, p.north), expected, 0.02);
        }
        // A chord that stays within 0.05 m of the circle cuts off at most 2/3 of that along its
        // length: 2 pi r 0.033 = 0.21 r.
        EXPECT_NEAR(
            signedArea(line.vertices), std::numbers::pi * expected * expected, 0.25 * expected);
    }
    ASSERT_THAT(contours.bands, SizeIs(levels.size() + 1));
    for (std::size_t i = 1; i + 1 < contours.bands.size(); ++i) {
        // Source: by hand, pi R² (z2 - z1) / D.
        const double expected = std::numbers::pi * radius * radius *
                                (contours.bands[i].to - contours.bands[i].from) / depthAtMiddle;
        EXPECT_NEAR(totalArea(contours.bands[i].areas), expected, 0.003 * expected);
        EXPECT_THAT(contours.bands[i].areas, SizeIs(1));
        EXPECT_THAT(contours.bands[i].areas[0].holes, SizeIs(1));
    }
    expectPartition(contours, depth);
}

TEST(Contours, OfAConeEncloseItsVolume) {
    // Source: tests/reference/case11_volumes.csv, cone pi R² D/3 = 15707.9632679 m³ (R 50, D 6).
    // The areas deeper than z are parabolic in z, for which Simpson's rule over z is exact.
    const GridFrame frame{.west = -60.0, .north = 60.0, .cell = 0.5, .rows = 240, .columns = 240};
    const auto depth = sampled(frame, [](Point p) {
        return depthAtMiddle * (1.0 - std::hypot(p.east, p.north) / radius);
    });
    const Contours contours = contoursOf(depth, tableAt({0.0, 3.0}));
    ASSERT_THAT(contours.lines, SizeIs(2));
    const double atTop = signedArea(contours.lines[0].vertices);
    const double halfWay = signedArea(contours.lines[1].vertices);
    const double volume = depthAtMiddle / 6.0 * (atTop + 4.0 * halfWay + 0.0);
    EXPECT_NEAR(volume, 15707.9632679, 0.002 * 15707.9632679);
}

TEST(Contours, OfASlopeAreStraightAndRunFromEdgeToEdge) {
    const GridFrame frame{.west = 0.0, .north = 10.0, .cell = 1.0, .rows = 10, .columns = 20};
    const auto depth = sampled(frame, [](Point p) { return 0.3 * p.east; });
    const Contours contours = contoursOf(depth, tableAt({3.0}));
    ASSERT_THAT(contours.lines, SizeIs(1));
    const ContourLine& line = contours.lines[0];
    EXPECT_FALSE(line.closed);
    // By hand: 0.3 x = 3 at x = 10, from the south edge to the north edge or back; deeper water
    // (east) on its left means walking from north to south.
    ASSERT_THAT(line.vertices, SizeIs(2));
    EXPECT_NEAR(line.vertices[0].east, 10.0, 1e-4);
    EXPECT_NEAR(line.vertices[0].north, 10.0, 1e-9);
    EXPECT_NEAR(line.vertices[1].east, 10.0, 1e-4);
    EXPECT_NEAR(line.vertices[1].north, 0.0, 1e-9);
    ASSERT_THAT(contours.bands, SizeIs(2));
    EXPECT_NEAR(totalArea(contours.bands[0].areas), 100.0, 0.01);
    EXPECT_FLOAT_EQ(static_cast<float>(contours.bands[0].from), depth.values.front());
    EXPECT_FLOAT_EQ(static_cast<float>(contours.bands[1].to), depth.values[19]);
}

TEST(Contours, StopWhereTheBedIsUnknown) {
    const GridFrame frame{.west = 0.0, .north = 10.0, .cell = 1.0, .rows = 10, .columns = 20};
    auto depth = sampled(frame, [](Point p) { return 0.3 * p.east; });
    for (int c = 0; c < 20; ++c) {
        depth.at(4, c) = unknown;
    }
    const Contours contours = contoursOf(depth, tableAt({3.0}));
    ASSERT_THAT(contours.lines, SizeIs(2));
    for (const ContourLine& line : contours.lines) {
        for (const Point p : line.vertices) {
            // Row 4 lies between 5 and 6 m north.
            EXPECT_TRUE(p.north <= 5.0 + 1e-9 || p.north >= 6.0 - 1e-9) << p.north;
        }
    }
    EXPECT_THAT(contours.shown, SizeIs(2));
    expectPartition(contours, depth);
}

TEST(Contours, NeverCrossAndTheirBandsFillTheKnownAreaExactly) {
    for (unsigned seed = 1; seed <= 6; ++seed) {
        SCOPED_TRACE(seed);
        const auto depth = roughBed(seed, seed % 2 == 0 ? 0.0 : 0.3);
        const Contours contours = contoursOf(depth, tableAt({0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5}));
        expectNoCrossings(contours);
        expectPartition(contours, depth);
    }
}

TEST(Contours, NeverCrossOnASteepBankWhereTheyCrowd) {
    // 3 m of depth within half a cell: twelve lines closer together than they may be thinned.
    const GridFrame frame{.west = 0.0, .north = 30.0, .cell = 1.0, .rows = 30, .columns = 30};
    const auto depth = sampled(frame, [](Point p) {
        return 3.0 / (1.0 + std::exp(-8.0 * (p.east - 15.0 - 4.0 * std::sin(0.4 * p.north))));
    });
    const Contours contours = contoursOf(depth, levelsFor(0.0, 3.0, Unit::Metre));
    EXPECT_THAT(contours.lines, SizeIs(::testing::Ge(11U)));
    expectNoCrossings(contours);
    expectPartition(contours, depth);
}

TEST(Contours, OfCellsExactlyAtALevelAreStillSound) {
    const GridFrame frame{.west = 0.0, .north = 8.0, .cell = 1.0, .rows = 8, .columns = 8};
    const auto depth = sampled(frame, [](Point p) {
        return 2.0 + (static_cast<int>(p.east) % 2) * (static_cast<int>(p.north) % 2);
    });
    const Contours contours = contoursOf(depth, tableAt({2.0, 2.5, 3.0}));
    expectNoCrossings(contours);
    expectPartition(contours, depth);
}

TEST(Contours, OfCellsThatTouchAtCornersKeepAreasApart) {
    // A ring of cells round a hole, closed at one place by a corner only, and a chess board.
    Raster<float> ring({.west = 0.0, .north = 4.0, .cell = 1.0, .rows = 4, .columns = 4}, 2.0F);
    for (const auto& [r, c] : {std::pair{1, 1}, {1, 2}, {2, 1}, {3, 3}, {2, 2}}) {
        ring.at(r, c) = unknown;
    }
    Raster<float> chess({.west = 0.0, .north = 6.0, .cell = 1.0, .rows = 6, .columns = 6}, 2.0F);
    for (int r = 0; r < 6; ++r) {
        for (int c = 0; c < 6; ++c) {
            chess.at(r, c) = (r + c) % 2 == 0 ? 1.0F + 0.1F * static_cast<float>(r) : unknown;
        }
    }
    for (const Raster<float>& depth : {ring, chess}) {
        const Contours contours = contoursOf(depth, tableAt({1.25}));
        expectPartition(contours, depth);
        for (const Polygon& polygon : contours.shown) {
            for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
                for (std::size_t j = i + 1; j < polygon.outer.size(); ++j) {
                    EXPECT_NE(polygon.outer[i], polygon.outer[j]) << "an area touches itself";
                }
            }
        }
    }
    EXPECT_THAT(contoursOf(chess, tableAt({})).shown, SizeIs(18));
}

TEST(Contours, WithoutBandsAreTheSameOtherwise) {
    const GridFrame frame{.west = 0.0, .north = 20.0, .cell = 1.0, .rows = 20, .columns = 20};
    const auto depth = sampled(frame, [](Point p) { return 2.0 + 0.01 * p.east * p.north; });
    Contours with = contoursOf(depth, tableAt({2.5, 3.5}));
    const Contours without = contoursOf(depth, tableAt({2.5, 3.5}), {.bands = false});
    EXPECT_THAT(with.bands, SizeIs(3));
    with.bands.clear();
    EXPECT_EQ(without, with);
}

TEST(Contours, OfNothingAreNothing) {
    const GridFrame frame{.west = 0.0, .north = 3.0, .cell = 1.0, .rows = 3, .columns = 3};
    const Contours none = contoursOf(Raster<float>(frame, unknown), tableAt({1.0}));
    EXPECT_THAT(none.lines, IsEmpty());
    EXPECT_THAT(none.bands, IsEmpty());
    EXPECT_THAT(none.shown, IsEmpty());
    EXPECT_THAT(contoursOf(Raster<float>(), tableAt({1.0})).shown, IsEmpty());
}

TEST(Contours, OfOneCellAreItsSquare) {
    const GridFrame frame{.west = 5.0, .north = 3.0, .cell = 2.0, .rows = 1, .columns = 1};
    const Contours contours = contoursOf(Raster<float>(frame, 1.5F), tableAt({1.0}));
    EXPECT_THAT(contours.lines, IsEmpty());
    ASSERT_THAT(contours.bands, SizeIs(1));
    EXPECT_THAT(
        contours.bands[0].areas[0].outer,
        ::testing::UnorderedElementsAre(
            Point{5.0, 3.0}, Point{7.0, 3.0}, Point{7.0, 1.0}, Point{5.0, 1.0}));
}

} // namespace
} // namespace bedlore
