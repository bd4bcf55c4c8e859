// SPDX-License-Identifier: MIT
#pragma once

#include <QIcon>
#include <QImage>

// What comes in colours of its own, for eyes that are used to the dark.

namespace bedlore {

/// `picture` in red light alone: its lightness tells, and white does not dazzle.
[[nodiscard]] QImage inRedLight(const QImage& picture);
[[nodiscard]] QIcon inRedLight(const QIcon& icon);

} // namespace bedlore
