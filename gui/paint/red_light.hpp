// SPDX-License-Identifier: MIT
#pragma once

#include <QIcon>
#include <QImage>

// What comes in colours of its own, for eyes that are used to the dark.

namespace bedlore {

/// Red light alone, as bright as `light` from 0 to 1: from a glow that does not spoil night sight
/// to two thirds of a full red.
[[nodiscard]] QRgb redGlow(double light);

/// `picture` in red light alone: its lightness tells, and white does not dazzle.
[[nodiscard]] QImage inRedLight(const QImage& picture);
[[nodiscard]] QIcon inRedLight(const QIcon& icon);

} // namespace bedlore
