// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/practice_tour.hpp"

#include <QObject>
#include <QString>

#include <filesystem>
#include <optional>

// Leads through the practice water: which step is shown, where it looks, and when it is done.

namespace bedlore {

class Desk;
class MainWindow;
class TourPanel;

/// Follows the book on the desk. A step whose mistake the book shows to be mended, with no other
/// line lost by a slip, makes way for the next by itself; it changes nothing in the book.
class TourGuide : public QObject {
    Q_OBJECT

public:
    /// `practice` is where his copy of the practice water lies, or the usual place where it is
    /// empty. `window` must outlive the guide.
    TourGuide(MainWindow& window, const std::filesystem::path& practice);

    /// For the window's frame, which owns it.
    [[nodiscard]] TourPanel* panel() { return panel_; }
    [[nodiscard]] TourStep step() const { return step_; }

    /// Puts the practice water on the desk, made if it is not there yet, and shows the tour.
    void open();
    /// Another book is on the desk.
    void follow(Desk& desk);
    /// The desk goes.
    void leave();
    void goOn();
    void goBack();
    /// Goes to the page and the line that the step is about.
    void goToPlace();
    void close();
    void askAnew();
    void beginAnew();

Q_SIGNALS:
    void warned(const QString& sentence);

private:
    void goTo(TourStep step, std::optional<TourStep> praised = {});
    void followBook();
    void refresh();
    void chooseAim();
    void show(bool open);
    [[nodiscard]] QString praise(const Book& book) const;
    [[nodiscard]] QString remark(const Book& book) const;
    [[nodiscard]] bool isPractice() const;

    MainWindow& window_;
    std::filesystem::path practice_;
    TourPanel* panel_;
    Desk* desk_ = nullptr; ///< with the practice water on it
    TourStep step_ = TourStep::Welcome;
    bool isDone_ = false;             ///< what the step asks for is done, and its page is whole
    std::optional<TourStep> praised_; ///< the step that made way for this one by itself
    std::optional<TourLine> lookFor_; ///< its aim is to be chosen as soon as it is there
};

} // namespace bedlore
