// SPDX-License-Identifier: MIT
#include "gui/dialogs/level_dialog.hpp"
#include "gui/dialogs/private_dialog.hpp"
#include "gui/dialogs/swim_dialog.hpp"
#include "gui/widgets/message_bar.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/where_choices.hpp"

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

void MainWindow::choosePalette(PaletteKind kind) {
    preferences_.palette = kind;
    applyPreferences();
}

void MainWindow::setTextScale(double scale) {
    preferences_.textScale = scale;
    applyPreferences();
}

void MainWindow::setDepthUnit(Unit unit) {
    preferences_.units.depth = unit;
    applyPreferences();
}

void MainWindow::setDistanceUnit(Unit unit) {
    preferences_.units.distance = unit;
    applyPreferences();
}

void MainWindow::setNorthUp(bool northUp) {
    if (desk_ == nullptr) {
        return;
    }
    preferences_.northUp = northUp;
    if (northUp) {
        desk_->plan().lookNorthUp();
    } else {
        desk_->plan().lookFromBank();
    }
    settings_.keep(preferences_);
    refreshActions();
}

void MainWindow::showPanel(Desk::Panel panel, bool shown) {
    if (desk_ != nullptr) {
        desk_->showPanel(panel, shown);
        refreshActions();
    }
}

void MainWindow::showAllPanels() {
    for (const Desk::Panel panel :
         {Desk::Panel::Page, Desk::Panel::SideView, Desk::Panel::ChosenPlace}) {
        showPanel(panel, true);
    }
}

void MainWindow::stepAim(int by) {
    if (desk_ == nullptr || desk_->aims().empty()) {
        return;
    }
    const int count = static_cast<int>(desk_->aims().size());
    const int now = static_cast<int>(desk_->chosenAim().value_or(0));
    desk_->chooseAim(static_cast<std::size_t>((now + by + count) % count));
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

void MainWindow::askSwimPlace() {
    if (desk_ == nullptr || !desk_->page().keep()) {
        return;
    }
    const auto swim = desk_->whereabouts().swim;
    if (!swim) {
        messages_->say(tr("There is no swim yet to give a place: a page needs its name and a date, "
                          "as in \"swim the Point\" and \"date 2025-04-12\"."));
        return;
    }
    // Gone with the desk, whose book it writes to.
    auto* dialog = new SwimDialog(desk_->document(), *swim, desk_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void MainWindow::askLevelMark() {
    if (desk_ == nullptr || !desk_->page().keep()) {
        return;
    }
    const auto water = desk_->whereabouts().water;
    if (!water) {
        messages_->say(tr("There is no water yet whose level could be read: begin a page first."));
        return;
    }
    auto* dialog = new LevelDialog(desk_->document(), *water, preferences_.units.depth, desk_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void MainWindow::stepPage(int by) {
    if (desk_ == nullptr || !desk_->page().keep()) {
        return;
    }
    if (!bedlore::stepPage(*desk_, by)) {
        messages_->say(
            by < 0 ? tr("This is the first page of the swim.")
                   : tr("This is the last page of the swim."));
    }
}

void MainWindow::askPrivateThings() {
    if (desk_ == nullptr || !desk_->page().keep()) {
        return;
    }
    const auto water = desk_->whereabouts().water;
    if (!water || privateChoices(*desk_->document().book(), *water).empty()) {
        messages_->say(tr("There is no spot and no mark yet to be private: a page names a spot as "
                          "in \"PINE = A 26¾\"."));
        return;
    }
    auto* dialog = new PrivateDialog(desk_->document(), *water, desk_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

void MainWindow::teachWord() {
    if (desk_ != nullptr) {
        desk_->teachWord();
        refreshActions();
    }
}

} // namespace bedlore
