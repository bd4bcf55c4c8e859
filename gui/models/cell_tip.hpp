// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

namespace bedlore {

/// The tool tip of a cell that may be too narrow for its words: all of them, as plain text.
[[nodiscard]] inline QString cellTip(const QString& words) {
    return words.isEmpty() ? QString()
                           : QStringLiteral("<p>") + words.toHtmlEscaped() + QStringLiteral("</p>");
}

} // namespace bedlore
