// SPDX-License-Identifier: MIT
#pragma once

// Every action of the window in one table.

namespace bedlore {

class MainWindow;

/// Makes the actions and the menus that hold them. Each action is a child of the window under the
/// name that the table gives it.
void makeActions(MainWindow& window);

/// Enables, ticks and words the actions as things stand.
void enableActions(MainWindow& window);

} // namespace bedlore
