// SPDX-License-Identifier: MIT
#pragma once

#include <QByteArray>

// What a PDF says about itself.

namespace bedlore {

/// Blanks the information dictionary of a PDF just written by QPdfWriter: the program, its version
/// and the time. Lengths do not change, so the file's table of positions stays right.
void withoutPdfProperties(QByteArray& pdf);

} // namespace bedlore
