// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/bed_picture.hpp"
#include "gui/paint/chart_painter.hpp"
#include "gui/plan_view/plan_overlay.hpp"

#include <QFont>
#include <QImage>

namespace bedlore {

/// What is seen of the plan, and how.
struct PlanScene {
    const BedPicture& picture;
    const PlanOverlay& overlay;
    ChartView view;
    QFont letters;
    double ratio = 1.0; ///< pixels for each unit of the view
};

/// Fills `image` (RGB32, its own ratio 1) with the map, rings and what was told from elsewhere; the
/// letters of the aims find their places free and are painted by whoever shows it. In stripes on
/// several threads, words last: painting is much of what a typed line costs.
void renderPlan(QImage& image, const PlanScene& scene);

} // namespace bedlore
