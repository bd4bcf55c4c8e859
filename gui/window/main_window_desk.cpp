// SPDX-License-Identifier: MIT
#include "gui/window/main_window.hpp"

// What the actions do with the page and with what the desk shows of it.

namespace bedlore {

void MainWindow::editLines(void (PageEditor::*edit)()) {
    if (desk_ == nullptr) {
        return;
    }
    PageEditor& editor = desk_->page().editor();
    if (focusWidget() == &editor && editor.isVisible()) {
        (editor.*edit)();
    }
}

} // namespace bedlore
