// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/key_row.hpp"

#include <vector>

// Every action of the window in one table.

namespace bedlore {

class MainWindow;

/// Makes the actions and the menus that hold them. Each action is a child of the window under the
/// name that the table gives it.
void makeActions(MainWindow& window);

/// Enables, ticks and words the actions as things stand.
void enableActions(MainWindow& window);

/// Every action with its key, or the letters that lead to it through its menu, and the keys of the
/// parts of the window: what the list of keys shows.
[[nodiscard]] std::vector<KeyRow> keyRows(const MainWindow& window);

} // namespace bedlore
