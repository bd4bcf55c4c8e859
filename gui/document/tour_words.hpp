// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/practice_tour.hpp"

#include <QString>

// What the tour says: one table, and all of it can be translated.

namespace bedlore {

/// `done` is said when the book shows it, `otherwise` when something else was changed; empty where
/// the step has nothing of the kind.
struct TourWords {
    QString title;
    QString text;
    QString done;
    QString otherwise;
    QString caution;
};

[[nodiscard]] TourWords tourWords(TourStep step);

} // namespace bedlore
