// SPDX-License-Identifier: MIT
#include "gui/paint/sheet_painter.hpp"
#include "tests/support/drawn_pit.hpp"
#include "tests/support/run_tool.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>
#include <sstream>
#include <stop_token>
#include <string>
#include <utility>

// What a printed sheet says, as another program reads it (pdftotext of poppler).

namespace bedlore {
namespace {

using ::testing::Contains;
using testing::DrawnPit;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::runTool;
using testing::secretsOfThePit;
using testing::TempFolder;

struct ReadSheet {
    std::string bytes;
    std::string text;            ///< words with single spaces
    std::set<std::string> words; ///< the same one by one
};

/// Two letters for each that a font draws as one.
std::string withoutLigatures(std::string text) {
    for (const auto& [one, two] : {std::pair("ﬁ", "fi"), std::pair("ﬂ", "fl")}) {
        for (auto at = text.find(one); at != std::string::npos; at = text.find(one)) {
            text.replace(at, std::string(one).size(), two);
        }
    }
    return text;
}

ReadSheet writeAndRead(const MapDrawing& map, const SheetOptions& options = {}) {
    const TempFolder folder;
    const std::filesystem::path file = folder / "sheet.pdf";
    const auto written = writeSheetPdf(file, map, options);
    EXPECT_TRUE(written.has_value()) << written.error().message;
    std::ifstream in(file, std::ios::binary);
    ReadSheet sheet{.bytes = {std::istreambuf_iterator<char>(in), {}}, .text = {}, .words = {}};
    const auto run = runTool("pdftotext -raw '" + file.string() + "' -");
    EXPECT_EQ(run.status, 0) << run.output;
    std::istringstream words(withoutLigatures(run.output));
    for (std::string word; words >> word;) {
        sheet.text += (sheet.text.empty() ? "" : " ") + word;
        sheet.words.insert(word);
    }
    return sheet;
}

Date day(int year, unsigned month, unsigned day) {
    return Date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
}

TEST(SheetPdf, OfEverythingSaysWhatTheMapHolds) {
    const DrawnPit pit;
    const MapDrawing map = pit.map(SharingTier::All);
    const ReadSheet sheet = writeAndRead(map, {.printed = day(2031, 3, 4)});
    EXPECT_THAT(sheet.text, HasSubstr("Harl Pit"));
    for (const char* swim : {"Alder Stand", "Long Board"}) {
        EXPECT_THAT(sheet.text, HasSubstr(swim));
    }
    EXPECT_THAT(sheet.text, HasSubstr("dead pine"));
    EXPECT_THAT(sheet.text, HasSubstr("Gravel Tooth")) << "his spot";
    // Source: by hand. 0.36 m below the mark at 18 cm a step, counted as the water falls: 2 steps.
    EXPECT_THAT(sheet.text, HasSubstr("2 steps showing"));
    EXPECT_THAT(sheet.text, HasSubstr("depth in feet"));
    EXPECT_THAT(sheet.text, HasSubstr("Printed 4 March 2031."));
    EXPECT_THAT(sheet.text, HasSubstr("not known well enough"));
    ASSERT_FALSE(map.cautions.empty());
    for (const std::string& caution : map.cautions) {
        EXPECT_THAT(sheet.text, HasSubstr(caution));
    }
    EXPECT_THAT(sheet.text, Not(HasSubstr("nobody's business"))) << "a private spot";
    EXPECT_THAT(sheet.text, Not(HasSubstr("my own stump"))) << "a private mark";
}

TEST(SheetPdf, NumbersItsContours) {
    const MapDrawing map = DrawnPit().map(SharingTier::All);
    const ReadSheet sheet = writeAndRead(map);
    int heavy = 0;
    for (const ContourLevel& level : map.contours.table.levels) {
        if (level.bold && level.labelled) {
            EXPECT_THAT(sheet.words, Contains(level.label));
            ++heavy;
        }
    }
    EXPECT_GT(heavy, 0);
}

TEST(SheetPdf, SaysWhichLetterEachAimHas) {
    DrawnPit pit;
    Cast cast = *pit.book.all<Cast>().begin();
    Aim aim;
    aim.id = {100'000};
    aim.visit = cast.visit;
    aim.label = "Q";
    pit.book.all<Aim>().put(aim);
    cast.aim = aim.id;
    pit.book.all<Cast>().put(cast);
    EXPECT_THAT(writeAndRead(pit.map(SharingTier::All)).words, Contains("Q"));
    EXPECT_THAT(writeAndRead(pit.map(SharingTier::Depth)).words, Not(Contains("Q")));
}

int timesIn(const std::string& text, const std::string& words) {
    int count = 0;
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) {
        ++count;
    }
    return count;
}

TEST(SheetPdf, NumbersItsRingsInWrapsWhereTheyAreCounted) {
    const DrawnPit pit;
    MapOptions options = pit.options(SharingTier::All);
    const ReadSheet inYards = writeAndRead(drawMap(pit.book, pit.reduction, pit.grid, options));
    options.ringsInWraps = true;
    const MapDrawing map = drawMap(pit.book, pit.reduction, pit.grid, options);
    ASSERT_TRUE(map.wraps.has_value());
    const ReadSheet inWraps = writeAndRead(map);
    EXPECT_EQ(timesIn(inYards.text, " wraps"), 0);
    EXPECT_GE(timesIn(inWraps.text, " wraps"), 2) << "at least two rings";
    EXPECT_LT(timesIn(inWraps.text, " yd"), timesIn(inYards.text, " yd"));
    EXPECT_GE(timesIn(inWraps.text, " yd"), 1) << "the scale bar has a length";
    options.tier = SharingTier::Depth;
    EXPECT_FALSE(drawMap(pit.book, pit.reduction, pit.grid, options).wraps.has_value());
}

TEST(SheetPdf, OfDepthsHasAScaleAndDepths) {
    const ReadSheet sheet = writeAndRead(DrawnPit().map(SharingTier::Depth));
    // No rings and no lines out at this tier: the only yards are those of the scale bar.
    EXPECT_THAT(sheet.words, Contains("yd"));
    EXPECT_THAT(sheet.text, HasSubstr("depth in feet"));
    EXPECT_THAT(sheet.text, HasSubstr("Not for navigation"));
}

TEST(SheetPdf, OfDepthsKeepsTheSecrets) {
    const DrawnPit pit;
    const ReadSheet shared =
        writeAndRead(pit.map(SharingTier::Depth), {.printed = day(2031, 3, 4)});
    ASSERT_FALSE(shared.text.empty());
    for (const char* secret : secretsOfThePit) {
        EXPECT_THAT(shared.text, Not(HasSubstr(secret)));
        EXPECT_EQ(shared.bytes.find(secret), std::string::npos) << secret;
    }
    // The same search finds them where they may be.
    const ReadSheet own = writeAndRead(pit.map(SharingTier::All));
    for (const char* secret : secretsOfThePit) {
        EXPECT_THAT(own.text, HasSubstr(secret));
    }
}

TEST(SheetPdf, SaysNothingAboutWhoMadeIt) {
    const ReadSheet sheet = writeAndRead(DrawnPit().map(SharingTier::All));
    for (const char* word : {"Qt ", "/tmp", "bedlore", "Bedlore", "D:20"}) {
        EXPECT_EQ(sheet.bytes.find(word), std::string::npos) << word;
    }
}

TEST(SheetPdf, IsStoppedBeforeItsEndWithNothingWritten) {
    const DrawnPit pit;
    const MapDrawing map = pit.map(SharingTier::All);
    for (const bool atOnce : {true, false}) {
        const TempFolder folder;
        std::stop_source stop;
        if (atOnce) {
            stop.request_stop();
        }
        const Progress progress(stop.get_token(), [&](double) { stop.request_stop(); });
        const auto stopped = writeSheetPdf(folder / "sheet.pdf", map, {}, progress);
        ASSERT_FALSE(stopped);
        EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
        EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
    }
}

} // namespace
} // namespace bedlore
