// SPDX-License-Identifier: MIT
#pragma once

#include "gui/jobs/job_board.hpp"
#include "gui/models/key_row.hpp"
#include "gui/section_view/section_painter.hpp"

#include <QWidget>

#include <memory>
#include <optional>
#include <vector>

// The side view: the bed under the chosen aim, from the rod tip to the lead.

namespace bedlore {

class SectionView : public QWidget {
    Q_OBJECT

public:
    /// The keys that it takes while it has the focus, for the list of keys.
    [[nodiscard]] static std::vector<KeyRow> keys();

    explicit SectionView(JobBoard& jobs, QWidget* parent = nullptr);

    void setMap(std::shared_ptr<const BedMap> map, std::vector<AimLine> aims);
    /// None shows words only.
    void setChosenAim(std::optional<std::size_t> aim);
    /// Ground distance of the chosen place along the aim.
    void setChosenRange(std::optional<Length> range);
    void setColours(PaletteKind kind);
    void setUnits(const DisplayUnits& units);
    /// Pixels for each metre on the plan.
    void setPlanScale(double scale);

    [[nodiscard]] const std::optional<SectionProfile>& section() const { return section_; }
    [[nodiscard]] QString title() const;

    [[nodiscard]] QSize sizeHint() const override { return {640, 200}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {240, 120}; }

Q_SIGNALS:
    /// Another aim is asked for, counted from the left.
    void aimWanted(std::size_t aim);
    void pointedAt(bedlore::Point place);
    void pointedAway();
    void placeChosen(bedlore::Point place);
    /// The side view is of the chosen aim and of the map as given.
    void drawn();

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    void make();
    [[nodiscard]] QFont smallFont() const;
    void stepAim(int by);
    void stepReading(int by);
    void describe();
    [[nodiscard]] SectionScale scale() const;
    [[nodiscard]] QString heading(const QFontMetricsF& metrics, double room) const;
    [[nodiscard]] double rangeOfLead() const;
    [[nodiscard]] std::optional<Point> placeAt(QPointF position) const;

    JobBoard& jobs_;
    std::shared_ptr<const BedMap> map_;
    std::vector<AimLine> aims_;
    std::optional<std::size_t> aim_;
    std::optional<SectionProfile> section_;
    std::shared_ptr<const BedMap> sectionMap_;
    SectionStyle style_;
};

} // namespace bedlore
