// SPDX-License-Identifier: MIT
#include "gui/panels/line_note.hpp"

#include <QCoreApplication>
#include <QRegularExpression>

namespace bedlore {

namespace {

/// As much of a meaning as there is room for; null where that says too little.
QString shortened(const QString& words, const QFontMetricsF& metrics, double room) {
    static const QRegularExpression brackets(QStringLiteral(R"( \([^()]*\))"));
    static const QRegularExpression distance(QStringLiteral(R"(^(about )?\d[^,]*, )"));
    const QString bare = QString(words).remove(brackets);
    const QString feel = distance.match(bare).hasMatch()
                             ? QStringLiteral("… ") + bare.section(QStringLiteral(", "), 1)
                             : bare;
    for (const QString& text : {words, bare, feel}) {
        if (metrics.horizontalAdvance(text) <= room) {
            return text;
        }
    }
    return {};
}

} // namespace

NotePlaces placesOf(const LineNote& note, const QFontMetricsF& metrics, double room) {
    const auto fits = [&](const QString& text) { return metrics.horizontalAdvance(text) <= room; };
    if (note.question.isEmpty()) {
        const QString beside = shortened(note.words, metrics, room);
        return {.beside = beside, .below = beside.isEmpty() ? note.words : QString()};
    }
    if (!note.words.isEmpty()) {
        return {.beside = shortened(note.words, metrics, room), .below = note.question};
    }
    if (note.answers.isEmpty()) {
        return fits(note.question) ? NotePlaces{.beside = note.question, .below = {}}
                                   : NotePlaces{.beside = {}, .below = note.question};
    }
    const QString answer =
        QCoreApplication::translate("bedlore::LineNote", "%1  F2").arg(note.answers.front());
    return {.beside = fits(answer) ? answer : QString(), .below = note.question};
}

} // namespace bedlore
