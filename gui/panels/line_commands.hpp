// SPDX-License-Identifier: MIT
#pragma once

// What one key does to whole lines of a page.

namespace bedlore {

class PageEditor;

/// Each is one act, on the lines of the selection or on the one under the cursor, and nothing on a
/// page that is for reading only.
namespace line_command {
void moveUp(PageEditor& page);
void moveDown(PageEditor& page);
void duplicate(PageEditor& page);
void takeOut(PageEditor& page);
void newBelow(PageEditor& page);
void newAbove(PageEditor& page);
} // namespace line_command

} // namespace bedlore
