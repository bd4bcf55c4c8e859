// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "gui/document/page_session.hpp"
#include "gui/document/practice_book.hpp"
#include "gui/document/practice_tour.hpp"
#include "gui/document/tour_slips.hpp"
#include "gui/document/tour_words.hpp"
#include "gui/document/whereabouts.hpp"
#include "tests/gui/statistics_words.hpp"
#include "tests/gui/support.hpp"
#include "tests/support/practice_book.hpp"
#include "tests/support/practice_water.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>

// The tour's steps against the practice water: what it takes for planted is planted, and what it
// takes for mended is what the formula says.

namespace bedlore::testing {
namespace {

std::vector<TourStep> allSteps() {
    std::vector<TourStep> steps;
    for (std::size_t i = 0; i < tourStepCount; ++i) {
        steps.push_back(static_cast<TourStep>(i));
    }
    return steps;
}

/// His own copy of the practice water, and a page of it to type on.
struct PracticeCopy {
    TempFolder folder;
    std::filesystem::path path = folder / "books" / "practice.gpkg";
    std::unique_ptr<Document> document;

    PracticeCopy() {
        const auto made = makePracticeBook(path);
        EXPECT_TRUE(made.has_value()) << made.error().message;
        document = openBook(path);
    }
    [[nodiscard]] const Book& book() const { return *document->book(); }
    [[nodiscard]] std::string textAt(TourStep step, int below = 0) const {
        const auto place = tourLine(book(), step);
        const auto lines = linesOf(book(), *pageOf(book(), place->visit));
        return lines.at(static_cast<std::size_t>(place->line + below))->text;
    }
    /// Makes the line that the step looks at, or one below it, say `text`.
    void write(TourStep step, const std::string& text, int below = 0) {
        const auto place = tourLine(book(), step);
        ASSERT_TRUE(place.has_value());
        PageSession session(*document);
        session.open(*pageOf(book(), place->visit));
        std::vector<std::string> lines = session.keptLines();
        const auto index = static_cast<std::size_t>(place->line + below);
        lines.resize(std::max(lines.size(), index + 1));
        lines[index] = text;
        const auto kept = session.keep(lines);
        ASSERT_TRUE(kept.has_value()) << kept.error().message;
    }
};

TEST(PracticeBook, HoldsThePagesOfTheSample) {
    const PracticeCopy copy;
    EXPECT_EQ(copy.book().all<Page>().size(), 4U);
    std::map<std::string, int> found;
    for (const Page& page : copy.book().all<Page>()) {
        ++found[pageText(copy.book(), page.id)];
    }
    for (const auto& [name, text] : practiceNotebook()) {
        if (name.ends_with(".txt")) {
            EXPECT_EQ(found[text], 1) << name;
        }
    }
    const Book ofSample = practiceBook();
    EXPECT_EQ(copy.book().all<Reading>().size(), ofSample.all<Reading>().size());
    EXPECT_EQ(copy.book().all<Swim>().size(), 2U);
    EXPECT_FALSE(std::filesystem::exists(copy.folder / "books" / "practice.new.gpkg"));
}

TEST(PracticeBook, IsNotMadeOverOneThatIsThere) {
    PracticeCopy copy;
    const Book before = copy.book();
    EXPECT_FALSE(makePracticeBook(copy.path).has_value());
    copy.document.reset();
    EXPECT_EQ(*openBook(copy.path)->book(), before);
}

TEST(PracticeBook, StartsAgainAndKeepsTheOldOneBeside) {
    PracticeCopy copy;
    const Book fresh = copy.book();
    for (const char* name : {"practice.kept-1.gpkg", "practice.kept-2.gpkg"}) {
        copy.write(TourStep::Sticks, "sticks 13 ft");
        const Book changed = copy.book();
        ASSERT_NE(changed, fresh);
        copy.document.reset();
        const auto kept = restorePracticeBook(copy.path);
        ASSERT_TRUE(kept.has_value()) << kept.error().message;
        EXPECT_EQ(kept->filename(), name);
        EXPECT_EQ(*openBook(*kept)->book(), changed);
        copy.document = openBook(copy.path);
        EXPECT_EQ(copy.book(), fresh);
    }
}

TEST(PracticeBook, StaysWhereItIsWhenTheDiskIsFull) {
    PracticeCopy copy;
    copy.write(TourStep::Sticks, "sticks 13 ft");
    const Book changed = copy.book();
    copy.document.reset();
    {
        const FullDisk full;
        EXPECT_FALSE(restorePracticeBook(copy.path).has_value());
    }
    EXPECT_EQ(*openBook(copy.path)->book(), changed);
}

TEST(PracticeTour, NamesOfStepsReadBackAndThoseOfMistakesAreThePlanted) {
    std::vector<std::string_view> mistakes;
    for (const TourStep step : allSteps()) {
        EXPECT_EQ(tourStepNamed(tourStepName(step)), step);
        if (!tourMending(step).planted.empty()) {
            mistakes.push_back(tourStepName(step));
        }
    }
    EXPECT_EQ(tourStepNamed("no such step"), std::nullopt);
    EXPECT_TRUE(std::equal(
        mistakes.begin(), mistakes.end(), plantedMistakes.begin(), plantedMistakes.end()));
}

TEST(PracticeTour, EachMistakeIsOpenUntilTheNotebookIsWithoutIt) {
    const Book planted = practiceBook();
    for (const std::string_view mistake : plantedMistakes) {
        const TourStep step = *tourStepNamed(mistake);
        EXPECT_EQ(tourState(planted, step), TourState::Open) << mistake;
        const Book mended = practiceBook({mistake});
        for (const std::string_view other : plantedMistakes) {
            EXPECT_EQ(
                tourState(mended, *tourStepNamed(other)),
                other == mistake ? TourState::Done : TourState::Open)
                << other << " when " << mistake << " is mended";
        }
    }
}

TEST(PracticeTour, LooksAtTheLineAndItsMendingIsWhatTheTrueNotebookSays) {
    const PracticeCopy copy;
    const auto trueNotebook = practiceNotebook({plantedMistakes.begin(), plantedMistakes.end()});
    for (const std::string_view mistake : plantedMistakes) {
        const TourStep step = *tourStepNamed(mistake);
        const TourMending mending = tourMending(step);
        EXPECT_EQ(copy.textAt(step), mending.planted) << mistake;
        const std::string line = "\n" + std::string(mending.mended) + "\n";
        EXPECT_TRUE(std::any_of(trueNotebook.begin(), trueNotebook.end(), [&](const auto& file) {
            return file.second.find(line) != std::string::npos;
        })) << mending.mended;
    }
    EXPECT_EQ(copy.textAt(TourStep::Hump), "10½ 5");
    EXPECT_EQ(copy.textAt(TourStep::Bar), "25¾ 4 gr D");
    EXPECT_EQ(copy.textAt(TourStep::Felt), "B 12¾-12 gr tap");
    EXPECT_EQ(copy.textAt(TourStep::Weed), "22 tw none");
}

TEST(PracticeTour, FindsTheLineWhateverItSaysByNow) {
    PracticeCopy copy;
    const int line = tourLine(copy.book(), TourStep::OneWrap)->line;
    copy.write(TourStep::OneWrap, "E 22 13");
    EXPECT_EQ(tourLine(copy.book(), TourStep::OneWrap)->line, line);
    EXPECT_EQ(tourState(copy.book(), TourStep::OneWrap), TourState::Otherwise);
    copy.write(TourStep::OneWrap, "E 23 13");
    EXPECT_EQ(tourLine(copy.book(), TourStep::OneWrap)->line, line);
}

TEST(PracticeTour, TakesAnyWayOfWritingTheTruth) {
    const std::array<std::pair<TourStep, const char*>, 7> ways{{
        {TourStep::FeetForMetres, "B 24 13 si"},
        {TourStep::OneWrap, "E 22¾ 13"},
        {TourStep::Sticks, "sticks 156 in"},
        {TourStep::Pulls, "float pulls 12 in + 1 ft"},
        {TourStep::Level, "level -8 in"},
        {TourStep::FloatUp, "B 24¼ 7"},
        {TourStep::TypeALine, "A 16 12 si glide"},
    }};
    for (const auto& [step, text] : ways) {
        PracticeCopy copy;
        EXPECT_EQ(tourState(copy.book(), step), TourState::Open) << text;
        copy.write(step, text);
        EXPECT_EQ(tourState(copy.book(), step), TourState::Done) << text;
        EXPECT_TRUE(copy.document->undo().has_value());
        EXPECT_EQ(tourState(copy.book(), step), TourState::Open) << text;
    }
}

TEST(PracticeTour, IsNotContentWithAnyChange) {
    const std::array<std::pair<TourStep, const char*>, 8> ways{{
        {TourStep::FeetForMetres, "B 24 si"},
        {TourStep::FeetForMetres, "B 24 8 si"},
        {TourStep::OneWrap, "E 25 13"},
        {TourStep::Sticks, "sticks 14 ft"},
        {TourStep::Sticks, "no sticks"},
        {TourStep::Pulls, "float pulls 12 in + 7 in"},
        {TourStep::Level, "level -0.60 m"},
        {TourStep::FloatUp, "B 23 7"},
    }};
    for (const auto& [step, text] : ways) {
        PracticeCopy copy;
        copy.write(step, text);
        EXPECT_EQ(tourState(copy.book(), step), TourState::Otherwise) << text;
    }
}

TEST(PracticeTour, TrueLineAboveOrBelowTheMistakeDoesNotMendIt) {
    for (const TourStep step : {TourStep::FeetForMetres, TourStep::OneWrap, TourStep::FloatUp}) {
        const TourMending mending = tourMending(step);
        for (const int below : {-1, 1}) {
            PracticeCopy copy;
            copy.write(step, std::string(mending.planted), 0);
            const auto place = tourLine(copy.book(), step);
            PageSession session(*copy.document);
            session.open(*pageOf(copy.book(), place->visit));
            std::vector<std::string> lines = session.keptLines();
            lines.insert(
                lines.begin() + place->line + (below > 0 ? 1 : 0), std::string(mending.mended));
            ASSERT_TRUE(session.keep(lines).has_value());
            EXPECT_EQ(tourState(copy.book(), step), TourState::Open)
                << mending.mended << (below > 0 ? " below" : " above");
        }
    }
}

const std::vector<TourStep> stepsWithALine{
    TourStep::TypeALine,
    TourStep::FeetForMetres,
    TourStep::OneWrap,
    TourStep::AimsSwapped,
    TourStep::Sticks,
    TourStep::Pulls,
    TourStep::Level,
    TourStep::FloatUp};

TEST(TourSlip, ThereIsNoneAsThePagesComeNorInAnyMendedNotebook) {
    const Book planted = practiceBook();
    const Book mended = practiceBook({plantedMistakes.begin(), plantedMistakes.end()});
    for (const TourStep step : stepsWithALine) {
        EXPECT_EQ(tourSlip(planted, step), std::nullopt) << tourStepName(step);
        EXPECT_EQ(tourSlip(mended, step), std::nullopt) << tourStepName(step);
    }
    EXPECT_EQ(tourSlip(planted, TourStep::Welcome), std::nullopt);
    EXPECT_EQ(tourSlip(Book{}, TourStep::OneWrap), std::nullopt);
}

TEST(TourSlip, NamesTheLineThatWasTypedOver) {
    PracticeCopy copy;
    copy.write(TourStep::FeetForMetres, "B 24 4m si glide");
    EXPECT_EQ(tourSlip(copy.book(), TourStep::FeetForMetres), std::nullopt);
    copy.write(TourStep::FeetForMetres, "22¼ 31", 1);
    EXPECT_EQ(tourState(copy.book(), TourStep::FeetForMetres), TourState::Done);
    EXPECT_EQ(tourSlip(copy.book(), TourStep::FeetForMetres), (TourSlip{"22¼ 13", false}));
    EXPECT_EQ(tourSlip(copy.book(), TourStep::OneWrap), (TourSlip{"22¼ 13", false}))
        << "it is the same page";
    EXPECT_EQ(tourSlip(copy.book(), TourStep::FloatUp), std::nullopt) << "it is another page";
    ASSERT_TRUE(copy.document->undo().has_value());
    EXPECT_EQ(tourSlip(copy.book(), TourStep::FeetForMetres), std::nullopt);
}

TEST(TourSlip, IsNoOtherWayOfWritingTheSameAndNoLineThatWasAdded) {
    PracticeCopy copy;
    for (const char* same : {"22¼  13", "22.25 13", "22¼ 13'", "22¼ 13 ft"}) {
        copy.write(TourStep::FeetForMetres, same, 1);
        EXPECT_EQ(tourSlip(copy.book(), TourStep::FeetForMetres), std::nullopt) << same;
    }
    copy.write(TourStep::FeetForMetres, "off the marks", -1); // a note
    copy.write(TourStep::TypeALine, "A 16 12 si");
    for (const TourStep step : stepsWithALine) {
        EXPECT_EQ(tourSlip(copy.book(), step), std::nullopt) << tourStepName(step);
    }
}

TEST(TourSlip, SeesALostHeaderAndALineThatHangsOnAnotherCast) {
    PracticeCopy copy;
    copy.write(TourStep::Level, "", 1);
    EXPECT_EQ(tourSlip(copy.book(), TourStep::Level), (TourSlip{"sticks 12 ft", false}));
    copy.write(TourStep::OneWrap, "");
    EXPECT_EQ(tourSlip(copy.book(), TourStep::OneWrap), (TourSlip{"-7t 13½", true}))
        << "it went out on aim E";
}

TEST(PracticeTour, SwappedAimsNeedBothLines) {
    PracticeCopy copy;
    copy.write(TourStep::AimsSwapped, "aim C = 359 true");
    EXPECT_EQ(tourState(copy.book(), TourStep::AimsSwapped), TourState::Otherwise);
    EXPECT_EQ(copy.textAt(TourStep::AimsSwapped, 1), "aim D = 359 true");
    copy.write(TourStep::AimsSwapped, "aim D = C + 18 deg right", 1);
    EXPECT_EQ(tourState(copy.book(), TourStep::AimsSwapped), TourState::Done);
}

TEST(PracticeTour, NoticesWhenTheHumpIsTakenOff) {
    PracticeCopy copy;
    EXPECT_EQ(tourState(copy.book(), TourStep::Hump), TourState::ToRead);
    copy.write(TourStep::Hump, "10½ 8½");
    EXPECT_EQ(tourState(copy.book(), TourStep::Hump), TourState::Otherwise);
    EXPECT_TRUE(copy.document->undo().has_value());
    EXPECT_EQ(tourState(copy.book(), TourStep::Hump), TourState::ToRead);
}

TEST(PracticeTour, LivesWithABookThatHasNoneOfItsPages) {
    const Book empty;
    for (const TourStep step : allSteps()) {
        EXPECT_EQ(tourLine(empty, step), std::nullopt);
        EXPECT_NE(tourState(empty, step), TourState::Done);
    }
}

TEST(PracticeTour, LineToTypeIsTrue) {
    // “A 16 12 si” of September: 16 wraps of 13 ft on 168°, by the formula.
    const double line = 16 * 13 * 0.3048;
    const Point place = practice::away(theAlders, 168.0, line);
    EXPECT_NEAR(wrackleDepth(place, -0.16) / 0.3048, 12.0, 0.25);
    EXPECT_EQ(wrackleSubstrate(place), Substrate::Silt);
}

TEST(TourWords, SaySomethingAtEachStepAndNothingOfStatistics) {
    for (const TourStep step : allSteps()) {
        const TourWords words = tourWords(step);
        const bool isMistake = !tourMending(step).planted.empty();
        EXPECT_FALSE(words.title.isEmpty());
        EXPECT_FALSE(words.text.isEmpty());
        EXPECT_EQ(!words.otherwise.isEmpty(), isMistake || step == TourStep::Hump);
        EXPECT_EQ(!words.done.isEmpty(), isMistake || step == TourStep::TypeALine);
        const QString all = words.title + words.text + words.done + words.otherwise + words.caution;
        EXPECT_TRUE(statisticsWordIn(all).isEmpty())
            << statisticsWordIn(all).toStdString() << " in " << words.title.toStdString();
        EXPECT_FALSE(all.contains(QStringLiteral("error"), Qt::CaseInsensitive))
            << words.title.toStdString();
    }
}

} // namespace
} // namespace bedlore::testing
