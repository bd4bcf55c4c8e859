// SPDX-License-Identifier: MIT
#pragma once

#include "gui/paint/theme.hpp"

#include <QFont>
#include <QString>

// How the window's own parts look: colours, type and spacing in one place.

namespace bedlore {

/// Gives the whole application its colours and its type. `textScale` is a share of 10.5 pt.
void dress(PaletteKind kind, double textScale);

/// The face of controls and labels, and the face of the page.
[[nodiscard]] QFont controlFont(double textScale);
[[nodiscard]] QFont pageFont(double textScale);

} // namespace bedlore
