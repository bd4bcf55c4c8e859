// SPDX-License-Identifier: MIT
#include "gui/panels/place_panel.hpp"

#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>

namespace bedlore {

namespace {

QLabel* addLabel(QVBoxLayout& column, const char* name, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column.addWidget(label);
    return label;
}

void set(QLabel& label, const std::string& words) {
    label.setText(QString::fromStdString(words));
    label.setVisible(!words.empty());
}

} // namespace

PlacePanel::PlacePanel(QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("placePanel"));
    setAccessibleName(tr("The chosen place"));
    setAttribute(Qt::WA_StyledBackground);
    scroll_ = new QScrollArea(this);
    scroll_->setObjectName(QStringLiteral("placeScroll"));
    scroll_->setAccessibleName(tr("The chosen place"));
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setWidgetResizable(true);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::StrongFocus);
    auto* around = new QVBoxLayout(this);
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(scroll_);
    setFocusProxy(scroll_);
    fill();
    show(std::nullopt);
}

void PlacePanel::fill() {
    auto* inside = new QWidget;
    inside->setObjectName(QStringLiteral("placeInside"));
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(4);
    addLabel(*column, "placeTitle", inside)->setText(tr("HERE"));
    hint_ = addLabel(*column, "placeHint", inside);
    hint_->setText(tr("Click the plan, or move it with the arrow keys and press Return, to see how "
                      "deep a place is and how to reach it."));
    depth_ = addLabel(*column, "placeDepth", inside);
    within_ = addLabel(*column, "placeWithin", inside);
    bottom_ = addLabel(*column, "placeBottom", inside);
    column->addSpacing(16);
    reachTitle_ = addLabel(*column, "placeReachTitle", inside);
    reachTitle_->setText(tr("LINE OUT, TIGHT"));
    howFar_ = addLabel(*column, "placeHowFar", inside);
    direction_ = addLabel(*column, "placeDirection", inside);
    measure_ = addLabel(*column, "placeMeasure", inside);
    column->addStretch();
    level_ = addLabel(*column, "placeLevel", inside);
    scroll_->setWidget(inside);
}

void PlacePanel::show(const std::optional<PlaceReadout>& readout) {
    const PlaceReadout words = readout.value_or(PlaceReadout{});
    hint_->setVisible(!readout);
    set(*depth_, words.depth);
    set(*within_, words.within);
    set(*bottom_, words.bottom);
    reachTitle_->setVisible(!words.howFar.empty());
    set(*howFar_, words.howFar);
    set(*direction_, words.direction);
    set(*measure_, words.measure);
    level_->setVisible(readout.has_value() && !level_->text().isEmpty());
    const QString whole = readout ? QString::fromStdString(words.line()) : hint_->text();
    setAccessibleDescription(whole);
    scroll_->setAccessibleDescription(whole);
}

void PlacePanel::setLevelWords(const QString& words) {
    level_->setText(words);
}

} // namespace bedlore

#include "moc_place_panel.cpp"
