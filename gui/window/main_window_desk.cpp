// SPDX-License-Identifier: MIT
#include "gui/window/main_window.hpp"

#include <algorithm>

// What the actions do with the page and with what the desk shows of it.

namespace bedlore {

void MainWindow::editLines(void (*edit)(PageEditor&)) {
    if (desk_ == nullptr) {
        return;
    }
    PageEditor& editor = desk_->page().editor();
    if (focusWidget() == &editor && editor.isVisible()) {
        edit(editor);
    }
}

void MainWindow::stepText(int steps) {
    const double wanted = preferences_.textScale + steps * textStep;
    setTextScale(std::clamp(wanted, smallestText, largestText));
}

void MainWindow::showLayer(bool MapLayers::*layer, bool shown) {
    preferences_.layers.*layer = shown;
    applyPreferences();
}

void MainWindow::goToPlace() {
    if (desk_ != nullptr) {
        showPanel(Desk::Panel::ChosenPlace, true);
        desk_->panel(Desk::Panel::ChosenPlace).setFocus(Qt::ShortcutFocusReason);
    }
}

void MainWindow::teachWord() {
    if (desk_ != nullptr) {
        desk_->teachWord();
        refreshActions();
    }
}

} // namespace bedlore
