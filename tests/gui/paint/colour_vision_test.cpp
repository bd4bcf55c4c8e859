// SPDX-License-Identifier: MIT
#include "gui/paint/depth_colours.hpp"
#include "gui/paint/stretch_pattern.hpp"
#include "gui/paint/symbol_painter.hpp"
#include "gui/paint/theme.hpp"
#include "tests/support/colour_vision.hpp"

#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

#include <map>
#include <string>
#include <utility>
#include <vector>

// Whether what is told by a colour other than depth is told to every eye: by the colour itself, or
// by a shape beside it.

namespace bedlore::testing {
namespace {

constexpr std::array palettesOnScreen{PaletteKind::Light, PaletteKind::Dark, PaletteKind::Night};

Rgb rgb(const QColor& colour) {
    return {
        static_cast<std::uint8_t>(colour.red()),
        static_cast<std::uint8_t>(colour.green()),
        static_cast<std::uint8_t>(colour.blue())};
}

/// One of each kind of bottom that look.md gives a colour of its own.
const std::vector<std::pair<std::string, StretchLook>>& colouredBottoms() {
    static const std::vector<std::pair<std::string, StretchLook>> all{
        {"rock", lookOf(Substrate::Rock)},
        {"gravel", lookOf(Substrate::Gravel)},
        {"mussels", lookOf(Substrate::Mussels)},
        {"sand", lookOf(Substrate::Sand)},
        {"clay", lookOf(Substrate::Clay)},
        {"silt", lookOf(Substrate::Silt)},
        {"black silt", lookOf(Substrate::BlackSilt)},
        {"weed", lookOf(Cover::Weed)},
        {"leaves", lookOf(Cover::Leaves)}};
    return all;
}

TEST(BottomColour, EveryTwoStayApartWithoutOneKindOfCones) {
    // Source: the design's table of the bottom, "smallest CIELAB distance between any two is 21.9".
    double least = 100.0;
    for (const Vision& vision : visions) {
        for (std::size_t i = 0; i < colouredBottoms().size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                const auto& [one, a] = colouredBottoms()[i];
                const auto& [other, b] = colouredBottoms()[j];
                const double distance = apartTo(vision, rgb(a.colour), rgb(b.colour));
                EXPECT_GE(distance, 21.85) << one << " and " << other << " to " << vision.name;
                // As they are drawn along a cast, a quarter darker: seven times what is just
                // noticeable (2.3, Mahy and others 1994).
                EXPECT_GE(
                    apartTo(vision, rgb(a.colour.darker(125)), rgb(b.colour.darker(125))), 16.1)
                    << one << " and " << other << " to " << vision.name;
                least = std::min(least, distance);
            }
        }
    }
    EXPECT_NEAR(least, 21.9, 0.05);
}

/// `classes` bands from the shallowest to the deepest, and how far neighbours are apart at least.
struct Bands {
    PaletteKind palette;
    int classes;
    double apart;
};

TEST(DepthColour, TellsBandsOnEveryScreenToEveryEye) {
    // By day the ramp's own bound. By night there is only the glow of red, of which eyes without
    // the cones for red see the least: half as many bands, each noticeable (2.3, Mahy and others
    // 1994).
    for (const Bands& bands :
         {Bands{PaletteKind::Light, 16, 3.5},
          Bands{PaletteKind::Dark, 16, 3.5},
          Bands{PaletteKind::Night, 8, 2.3}}) {
        MapDrawing map;
        map.deepest = bands.classes;
        for (const Vision& vision : visions) {
            for (int i = 0; i < bands.classes; ++i) {
                const Rgb one = rgb(depthColourOf(map, bands.palette, i));
                const Rgb deeper = rgb(depthColourOf(map, bands.palette, i + 1));
                EXPECT_GE(apartTo(vision, one, deeper), bands.apart)
                    << vision.name << " " << i << " in palette " << static_cast<int>(bands.palette);
                EXPECT_GT(lab(seenBy(vision, one))[0], lab(seenBy(vision, deeper))[0])
                    << vision.name << ": deeper must be darker, band " << i;
            }
        }
    }
}

/// A stretch as the map draws it, large, and how it looks where there is no colour at all.
QImage drawn(std::optional<Substrate> substrate, std::optional<Cover> cover, PaletteKind palette) {
    QImage image(200, 60, QImage::Format_RGB32);
    image.fill(bedlore::palette(palette).paper);
    QPainter painter(&image);
    SymbolPainter(painter, palette, 5.0).stretch({10.0, 30.0}, {190.0, 30.0}, substrate, cover);
    painter.end();
    return image.convertToFormat(QImage::Format_Grayscale8);
}

TEST(BottomPattern, TellsEveryKindWithoutColour) {
    // The sizes of gravel, the firmness of clay and of silt, and the height of weed are finer than
    // a stretch along a cast shows: one of each.
    const std::vector<std::pair<std::string, std::optional<Substrate>>> grounds{
        {"nothing felt", std::nullopt},
        {"rock", Substrate::Rock},
        {"gravel", Substrate::Gravel},
        {"mussels", Substrate::Mussels},
        {"sand", Substrate::Sand},
        {"clay", Substrate::Clay},
        {"silt", Substrate::Silt},
        {"black silt", Substrate::BlackSilt},
        {"hard", Substrate::Hard},
        {"soft", Substrate::Soft}};
    const std::vector<std::pair<std::string, Cover>> covers{
        {"weed", Cover::Weed},
        {"leaves", Cover::Leaves},
        {"twigs", Cover::Twigs},
        {"roots", Cover::Roots}};
    for (const PaletteKind palette : {PaletteKind::Night, PaletteKind::Print}) {
        std::vector<std::pair<std::string, QImage>> all;
        for (const auto& [name, ground] : grounds) {
            all.emplace_back(name, drawn(ground, std::nullopt, palette));
        }
        for (const auto& [name, cover] : covers) {
            all.emplace_back(name, drawn(Substrate::Silt, cover, palette));
        }
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                EXPECT_NE(all[i].second, all[j].second)
                    << all[i].first << " looks like " << all[j].first;
            }
        }
    }
}

/// A reading as the map draws it, without colour.
QImage drawn(const ReadingSymbol& symbol, PaletteKind palette) {
    QImage image(60, 60, QImage::Format_RGB32);
    image.fill(Qt::gray); // neither its ink nor its rim
    QPainter painter(&image);
    SymbolPainter(painter, palette, 4.0).reading({30.0, 30.0}, symbol);
    painter.end();
    return image.convertToFormat(QImage::Format_Grayscale8);
}

TEST(ReadingSign, TellsDropDoubtAndOutcomeWithoutColour) {
    for (const PaletteKind palette : palettesOnScreen) {
        std::vector<QImage> all;
        for (const DropSymbol drop : {DropSymbol::None, DropSymbol::Hard, DropSymbol::Soft}) {
            for (const bool doubtful : {false, true}) {
                for (const bool outcome : {false, true}) {
                    all.push_back(drawn(
                        {.depth = !outcome, .drop = drop, .doubtful = doubtful, .outcome = outcome},
                        palette));
                }
            }
        }
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                EXPECT_NE(all[i], all[j]) << i << " looks like " << j;
            }
        }
    }
}

TEST(ReadingSign, TellsEachPullFromTheOthersWithoutColour) {
    for (const PaletteKind palette : palettesOnScreen) {
        std::vector<std::pair<std::string, QImage>> all{{"nothing", drawn({}, palette)}};
        for (const Term<Pull>& term : pullTerms()) {
            all.emplace_back(term.word, drawn({.pull = term.kind}, palette));
        }
        for (std::size_t i = 0; i < all.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                EXPECT_NE(all[i].second, all[j].second)
                    << all[i].first << " looks like " << all[j].first;
            }
        }
    }
}

struct Told {
    std::string what;
    QColor Palette::*one;
    QColor Palette::*other;
};

TEST(WindowColour, WhatIsToldByColourIsToldToEveryEye) {
    // What tells two classes of words or of lines in the window. Three times what is just
    // noticeable (2.3, Mahy and others 1994).
    const std::vector<Told> told{
        {"a question and what a line was taken to mean", &Palette::warn, &Palette::softInk},
        {"a row to look at and the others", &Palette::warn, &Palette::ink},
        {"words typed and what they mean", &Palette::ink, &Palette::softInk},
        {"the chosen aim and the bed", &Palette::accent, &Palette::ink},
        {"the chosen place and a hint", &Palette::accent, &Palette::softInk},
        {"a question and the line under the cursor", &Palette::warn, &Palette::accent}};
    for (const PaletteKind kind : palettesOnScreen) {
        const Palette& colours = palette(kind);
        for (const Vision& vision : visions) {
            for (const Told& pair : told) {
                EXPECT_GE(
                    apartTo(vision, rgb(colours.*pair.one), rgb(colours.*pair.other)), 3.0 * 2.3)
                    << pair.what << " to " << vision.name << " in palette "
                    << static_cast<int>(kind);
            }
            // The row that is chosen, on the paper and on the panel.
            for (const QColor& ground : {colours.paper, colours.panel}) {
                EXPECT_GE(apartTo(vision, rgb(colours.selection), rgb(ground)), 3.5)
                    << vision.name << " in palette " << static_cast<int>(kind);
            }
        }
    }
}

} // namespace
} // namespace bedlore::testing
