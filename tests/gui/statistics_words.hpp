// SPDX-License-Identifier: MIT
#pragma once

#include <QString>
#include <QStringList>

namespace bedlore::testing {

/// The first word of statistics or surveying in `text`, of those that never stand on the screen;
/// empty where there is none.
inline QString statisticsWordIn(const QString& text) {
    static const QStringList unwanted{
        QStringLiteral("sounding"),
        QStringLiteral("datum"),
        QStringLiteral("reduction"),
        QStringLiteral("residual"),
        QStringLiteral("sigma"),
        QStringLiteral("kriging"),
        QStringLiteral("outlier"),
        QStringLiteral("variance"),
        QStringLiteral("covarian"),
        QStringLiteral("variogram"),
        QStringLiteral("probab"),
        QStringLiteral("standard error"),
        QStringLiteral("standard deviation"),
        QStringLiteral("confidence")};
    for (const QString& word : unwanted) {
        if (text.contains(word, Qt::CaseInsensitive)) {
            return word;
        }
    }
    return {};
}

} // namespace bedlore::testing
