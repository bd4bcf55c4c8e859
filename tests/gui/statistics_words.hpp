// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/statistics_words.hpp"

#include <QString>

namespace bedlore::testing {

inline QString statisticsWordIn(const QString& text) {
    return QString::fromStdString(statisticsWordIn(text.toStdString()));
}

} // namespace bedlore::testing
