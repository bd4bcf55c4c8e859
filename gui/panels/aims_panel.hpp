// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/aims.hpp"
#include "gui/document/display_units.hpp"

#include <QWidget>

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

class QLabel;
class QModelIndex;
class QScrollArea;
class QTreeView;

// The aims and what was felt along them, to walk through with the arrow keys.

namespace bedlore {

class AimsModel;

class AimsPanel : public QWidget {
    Q_OBJECT

public:
    explicit AimsPanel(QWidget* parent = nullptr);

    /// The row that was chosen stays chosen where it is still there.
    void show(
        const std::shared_ptr<const BedMap>& map,
        const std::vector<AimLine>& aims,
        const DisplayUnits& units);
    /// Follows what is chosen elsewhere, and tells nobody.
    void setChosen(std::optional<std::size_t> aim, std::optional<Id<Reading>> reading);

Q_SIGNALS:
    void aimChosen(std::size_t aim);
    void readingChosen(bedlore::Id<bedlore::Reading> reading);
    /// Return on a reading: to its line on the page.
    void lineWanted(bedlore::Id<bedlore::Reading> reading);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fitGuessed();
    void fitRows();
    void tellChoice(const QModelIndex& row);
    void lookAt(const QModelIndex& row);

    AimsModel* model_;
    QLabel* guessed_;          ///< what it means that angles are guessed
    QScrollArea* guessedArea_; ///< what of that does not fit is scrolled to
    QTreeView* tree_;
    bool following_ = false;
};

} // namespace bedlore
