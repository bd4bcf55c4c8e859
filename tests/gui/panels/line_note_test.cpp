// SPDX-License-Identifier: MIT
#include "gui/panels/line_note.hpp"

#include <QFontMetricsF>
#include <QGuiApplication>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

const QString full = QStringLiteral("27 wraps (108 yd), 10 ft, gravel");
const QString bare = QStringLiteral("27 wraps, 10 ft, gravel");
const QString feel = QStringLiteral("… 10 ft, gravel");

struct Fitting {
    QFontMetricsF metrics{QGuiApplication::font()};

    /// Where `note` stands where there is just room for `room` beside the line.
    [[nodiscard]] NotePlaces places(const LineNote& note, const QString& room) const {
        return placesOf(note, metrics, metrics.horizontalAdvance(room));
    }
    [[nodiscard]] NotePlaces in(const QString& words, const QString& room) const {
        return places({.words = words, .question = {}, .answers = {}}, room);
    }
};

NotePlaces beside(const QString& words) {
    return {.beside = words, .below = {}};
}

TEST(LineNote, StandsBesideItsLineWhereThereIsRoom) {
    EXPECT_EQ(Fitting().in(full, full), beside(full));
}

TEST(LineNote, LosesWhatStandsInBracketsFirst) {
    EXPECT_EQ(Fitting().in(full, bare), beside(bare));
    EXPECT_EQ(Fitting().in(full, bare + QStringLiteral("i")), beside(bare));
}

TEST(LineNote, KeepsDepthAndBottomLongest) {
    EXPECT_EQ(Fitting().in(full, feel), beside(feel));
}

TEST(LineNote, GoesBelowWholeRatherThanBeCut) {
    EXPECT_EQ(
        Fitting().in(full, QStringLiteral("27 wraps")), (NotePlaces{.beside = {}, .below = full}));
    const QString aim = QStringLiteral("aim B, 10 degrees right of A");
    EXPECT_EQ(
        Fitting().in(aim, QStringLiteral("10 degrees right of A")),
        (NotePlaces{.beside = {}, .below = aim}))
        << "only a distance that he has just typed may be left out";
    EXPECT_EQ(
        Fitting().in(QStringLiteral("note"), QStringLiteral("note")),
        beside(QStringLiteral("note")));
}

TEST(LineNote, AQuestionStandsUnderItsLineAndItsFirstAnswerBesideIt) {
    const LineNote asks{
        .words = {},
        .question = QStringLiteral("110 wraps is beyond any cast."),
        .answers = {QStringLiteral("yards?"), QStringLiteral("metres?")}};
    EXPECT_EQ(
        Fitting().places(asks, full),
        (NotePlaces{.beside = QStringLiteral("yards?  F2"), .below = asks.question}));
    EXPECT_EQ(
        Fitting().places(asks, QStringLiteral("y")),
        (NotePlaces{.beside = {}, .below = asks.question}));
}

TEST(LineNote, AMeaningThatCountsStandsBesideWhatIsAskedAboutIt) {
    const LineNote asks{
        .words = full,
        .question = QStringLiteral("Q is not among the aims."),
        .answers = {QStringLiteral("A?")}};
    EXPECT_EQ(Fitting().places(asks, full), (NotePlaces{.beside = full, .below = asks.question}));
    EXPECT_EQ(Fitting().places(asks, bare), (NotePlaces{.beside = bare, .below = asks.question}));
}

TEST(LineNote, AQuestionWithoutAnswersStandsWhereItFits) {
    const LineNote asks{
        .words = {}, .question = QStringLiteral("nearer than what?"), .answers = {}};
    EXPECT_EQ(Fitting().places(asks, full), beside(asks.question));
    EXPECT_EQ(
        Fitting().places(asks, QStringLiteral("n")),
        (NotePlaces{.beside = {}, .below = asks.question}));
}

} // namespace
} // namespace bedlore
