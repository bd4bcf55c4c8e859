// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/readout.hpp"

#include <QWidget>

#include <optional>

class QLabel;
class QScrollArea;

// The chosen place: how deep, how sure, what bottom, how to reach it.

namespace bedlore {

class PlacePanel : public QWidget {
    Q_OBJECT

public:
    explicit PlacePanel(QWidget* parent = nullptr);
    /// Empty until a place is chosen.
    void show(const std::optional<PlaceReadout>& readout);
    /// "at the level of 12 April": what depths here count from.
    void setLevelWords(const QString& words);

private:
    void fill();

    QScrollArea* scroll_; ///< what does not fit is scrolled to
    QLabel* depth_;
    QLabel* within_;
    QLabel* bottom_;
    QLabel* reachTitle_;
    QLabel* howFar_;
    QLabel* measure_;
    QLabel* direction_;
    QLabel* level_;
    QLabel* hint_;
};

} // namespace bedlore
