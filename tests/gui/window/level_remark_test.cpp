// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QLabel>

#include <algorithm>
#include <memory>

// What the window says of a visit that names no level beside one that does.

namespace bedlore::testing {
namespace {

const std::vector<std::string> twoVisits{
    "swim the Point",
    "date 2025-04-12",
    "level 0.35 m",
    "distances wraps",
    "depths ft",
    "aim A = 10 true",
    "A 28 9 gr",
    "20 8",
    "date 2025-05-03",
    "A 27 10 gr",
    "19 8"};

TEST(LevelRemark, StandsAtTheDateUntilALevelIsTyped) {
    OpenWindow open;
    open.typePage(twoVisits);
    EXPECT_EQ(open.editor().noteOf(1).question, QString());
    const LineNote note = open.editor().noteOf(8);
    EXPECT_EQ(note.words, QStringLiteral("3 May 2025"));
    EXPECT_TRUE(note.question.startsWith(QStringLiteral("No level for this visit:")))
        << note.question.toStdString();
    EXPECT_TRUE(note.question.contains(QStringLiteral("give or take 1 ft")));
    open.editor().goToLine(8);
    QTest::keyClick(&open.editor(), Qt::Key_Return);
    open.press("level 0.20 m");
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_EQ(open.editor().noteOf(8).question, QString()) << "before the map knows of it";
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.editor().noteOf(8).question, QString());
    open.desk().undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_FALSE(open.editor().noteOf(8).question.isEmpty());
}

TEST(LevelRemark, IsSaidOfAChosenPlaceThatRestsOnTheVisit) {
    OpenWindow open;
    open.typePage(twoVisits);
    const std::shared_ptr<const BedMap> map = open.desk().builder().map();
    ASSERT_NE(map, nullptr);
    const Reduction& reduction = map->reduction;
    auto& level = open.part<QLabel>("placeLevel");
    const auto wordsAt = [&](bool levelSaid) {
        const auto rests = [&](const Sounding& sounding) {
            const ReducedCast& cast = reduction.casts[sounding.line->cast];
            return reduction.visits[cast.visit].levelSaid == levelSaid;
        };
        const auto found =
            std::find_if(reduction.soundings.begin(), reduction.soundings.end(), rests);
        EXPECT_NE(found, reduction.soundings.end());
        open.desk().choosePlace(found->place);
        return level.text();
    };
    EXPECT_TRUE(wordsAt(false).contains(QStringLiteral("no level was said")));
    EXPECT_FALSE(wordsAt(true).contains(QStringLiteral("no level was said")));
}

} // namespace
} // namespace bedlore::testing
