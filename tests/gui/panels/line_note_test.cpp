// SPDX-License-Identifier: MIT
#include "gui/panels/page_editor.hpp"

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

    /// `words` where there is just room for `room`.
    [[nodiscard]] QString in(const QString& words, const QString& room) const {
        return fittingNote(words, metrics, metrics.horizontalAdvance(room));
    }
};

TEST(FittingNote, IsWholeWhereThereIsRoom) {
    EXPECT_EQ(Fitting().in(full, full), full);
}

TEST(FittingNote, LosesWhatStandsInBracketsFirst) {
    EXPECT_EQ(Fitting().in(full, bare), bare);
    EXPECT_EQ(Fitting().in(full, bare + QStringLiteral("i")), bare);
}

TEST(FittingNote, KeepsDepthAndBottomLongest) {
    EXPECT_EQ(Fitting().in(full, feel), feel);
}

TEST(FittingNote, IsCutOnlyWhereNothingElseHelps) {
    const QString cut = Fitting().in(full, QStringLiteral("27 wraps"));
    EXPECT_TRUE(cut.endsWith(u'…')) << cut.toStdString();
    EXPECT_LT(cut.size(), feel.size());
    EXPECT_EQ(Fitting().in(QStringLiteral("note"), QStringLiteral("note")), QStringLiteral("note"));
}

} // namespace
} // namespace bedlore
