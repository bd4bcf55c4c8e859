// SPDX-License-Identifier: MIT
#pragma once

#include <QFontMetricsF>
#include <QString>
#include <QStringList>

// What stands beside a typed line: its meaning, or what is unclear about it.

namespace bedlore {

/// `question` is not empty where he is to look at the line; `words` beside it say that it counts
/// all the same. `answers` are what one key would make of it.
struct LineNote {
    QString words;
    QString question;
    QStringList answers;
    friend bool operator==(const LineNote&, const LineNote&) = default;
};

/// Where the words of a note stand: on the typed line itself as far as there is room, and under it,
/// over as many rows as they need. Nothing of a meaning or a question is ever cut.
struct NotePlaces {
    QString beside;
    QString below;
    friend bool operator==(const NotePlaces&, const NotePlaces&) = default;
};

/// `room` is what is free beside the typed words. A meaning ("27 wraps (108 yd), 10 ft, gravel")
/// gives up what stands in brackets, then the distance, which he has just typed, before it goes
/// below whole. A question stands under its line, and beside it the meaning that counts meanwhile,
/// or where there is none the answer that one key gives.
[[nodiscard]] NotePlaces placesOf(const LineNote& note, const QFontMetricsF& metrics, double room);

} // namespace bedlore
