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

/// Follows the book on the desk. A step whose mistake the book shows to be mended makes way for the
/// next by itself; it changes nothing in the book.
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
    void goTo(TourStep step, const QString& praise = {});
    void followBook();
    void refresh();
    void chooseAim();
    void show(bool open);
    [[nodiscard]] bool isPractice() const;

    MainWindow& window_;
    std::filesystem::path practice_;
    TourPanel* panel_;
    Desk* desk_ = nullptr; ///< with the practice water on it
    TourStep step_ = TourStep::Welcome;
    TourState state_ = TourState::ToRead;
    QString praise_;
    std::optional<TourLine> lookFor_; ///< its aim is to be chosen as soon as it is there
};

} // namespace bedlore
