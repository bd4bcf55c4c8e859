// SPDX-License-Identifier: MIT
#include "gui/dialogs/tier_choice.hpp"

#include <QButtonGroup>
#include <QCheckBox>
#include <QLabel>
#include <QRadioButton>
#include <QVBoxLayout>

#include <array>

namespace bedlore {

namespace {
constexpr int noteIndent = 24; // [px] under the words of its button
} // namespace

TierChoice::TierChoice(QWidget* parent)
    : QWidget(parent)
    , tiers_(new QButtonGroup(this))
    , private_(new QCheckBox(tr("Pri&vate spots and marks too"), this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    struct Row {
        SharingTier tier;
        QString words;
        QString more;
    };
    const std::array<Row, 3> rows{
        {{SharingTier::Depth, tr("&Depths only"), tr("nothing that shows where you fish")},
         {SharingTier::Bottom, tr("With the &bottom"), tr("not built yet: depths only for now")},
         {SharingTier::All,
          tr("&Everything"),
          tr("casts, readings, swims and how sure, for yourself")}}};
    for (const auto& [tier, words, more] : rows) {
        auto* button = new QRadioButton(words, this);
        button->setAccessibleDescription(more);
        button->setObjectName(
            QStringLiteral("tier_") + QString::fromUtf8(bedlore::word(tier).data()));
        tiers_->addButton(button, static_cast<int>(tier));
        column->addWidget(button);
        // A button's own words cannot go on in a second row.
        auto* note = new QLabel(more, this);
        note->setObjectName(QStringLiteral("tierNote"));
        note->setWordWrap(true);
        note->setIndent(noteIndent);
        column->addWidget(note);
    }
    private_->setObjectName(QStringLiteral("exportPrivate"));
    column->addWidget(private_);
    tiers_->button(static_cast<int>(SharingTier::Depth))->setChecked(true);
    private_->setEnabled(false);
    connect(tiers_, &QButtonGroup::idToggled, this, [this](int /*id*/, bool checked) {
        if (checked) {
            follow();
        }
    });
    connect(private_, &QCheckBox::toggled, this, &TierChoice::changed);
}

SharingTier TierChoice::tier() const {
    return static_cast<SharingTier>(tiers_->checkedId());
}

PrivateThings TierChoice::privateThings() const {
    return private_->isChecked() ? PrivateThings::Include : PrivateThings::LeaveOut;
}

void TierChoice::follow() {
    const bool everything = tier() == SharingTier::All;
    private_->setEnabled(everything);
    if (!everything) {
        const QSignalBlocker quiet(private_);
        private_->setChecked(false);
    }
    Q_EMIT changed();
}

} // namespace bedlore

#include "moc_tier_choice.cpp"
