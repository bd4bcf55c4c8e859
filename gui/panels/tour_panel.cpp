// SPDX-License-Identifier: MIT
#include "gui/panels/tour_panel.hpp"

#include "gui/widgets/announce.hpp"
#include "gui/widgets/plain_label.hpp"
#include "gui/widgets/scrolled_part.hpp"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QToolButton>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <utility>

namespace bedlore {

namespace {

constexpr int longestLine = 120; // letters; much longer, it is hard to read back from

QKeySequence placeKey() {
    return {Qt::Key_F3};
}
QKeySequence onKey() {
    return {Qt::Key_F8};
}
QKeySequence backKey() {
    return {Qt::SHIFT | Qt::Key_F8};
}

constexpr int rowGap = 4; // pixels between what it says

QString titleOf(const TourPage& page) {
    return TourPanel::tr("%1 of %2 · %3").arg(page.number).arg(page.count).arg(page.title);
}

void set(QLabel& label, const QString& words) {
    label.setText(words);
    label.setVisible(!words.isEmpty());
}

QToolButton* toolButton(const QString& words, const char* name, QWidget* parent) {
    auto* made = new QToolButton(parent);
    made->setObjectName(QString::fromLatin1(name));
    made->setText(words);
    made->setAutoRaise(true);
    made->setFocusPolicy(Qt::TabFocus);
    return made;
}

} // namespace

TourPanel::TourPanel(QWidget* parent)
    : QWidget(parent)
    , title_(plainLabel("tourTitle", this))
    , praise_(plainLabel("tourPraise", this))
    , text_(plainLabel("tourText", this))
    , remark_(plainLabel("tourRemark", this))
    , caution_(plainLabel("tourCaution", this))
    , place_(button(tr("Take me there"), placeKey(), "tourPlace"))
    , back_(button(tr("Back"), backKey(), "tourBack"))
    , on_(button(tr("Go on"), onKey(), "tourOn"))
    , yes_(button(tr("Make them new"), {}, "tourYes"))
    , no_(button(tr("Leave them"), {}, "tourNo"))
    , anew_(toolButton(tr("Start again…"), "tourAnew", this))
    , close_(toolButton(tr("Close the tour"), "tourClose", this)) {
    setObjectName(QStringLiteral("tourPanel"));
    setAttribute(Qt::WA_StyledBackground);
    setAccessibleName(tr("Tour of the practice water"));
    arrange();
    connect(place_, &QPushButton::clicked, this, &TourPanel::placeWanted);
    connect(back_, &QPushButton::clicked, this, &TourPanel::backWanted);
    connect(on_, &QPushButton::clicked, this, &TourPanel::onWanted);
    connect(anew_, &QToolButton::clicked, this, &TourPanel::anewWanted);
    connect(close_, &QToolButton::clicked, this, &TourPanel::closeWanted);
    connect(yes_, &QPushButton::clicked, this, &TourPanel::anewConfirmed);
    connect(no_, &QPushButton::clicked, this, &TourPanel::anewDeclined);
    setAsking(false);
}

std::vector<KeyRow> TourPanel::keys() {
    const QString where = tr("in the tour");
    const auto words = [](const QKeySequence& key) {
        return key.toString(QKeySequence::NativeText);
    };
    return {
        {where, words(placeKey()), tr("To the page and line that the step is about")},
        {where, words(onKey()), tr("The next step")},
        {where, words(backKey()), tr("The step before")},
        {where, tr("Escape"), tr("Close the tour, with the focus on it")}};
}

QPushButton* TourPanel::button(const QString& words, const QKeySequence& key, const char* name) {
    const QString keyWords = key.toString(QKeySequence::NativeText);
    auto* made =
        new QPushButton(keyWords.isEmpty() ? words : words + QStringLiteral("  ") + keyWords, this);
    made->setObjectName(QString::fromLatin1(name));
    made->setAccessibleName(words);
    made->setFocusPolicy(Qt::TabFocus);
    made->setShortcut(key);
    return made;
}

void TourPanel::arrange() {
    auto* column = new QWidget;
    auto* words = new QVBoxLayout(column);
    words->setContentsMargins(0, 0, 0, 0);
    words->setSpacing(rowGap);
    for (QLabel* part : {title_, praise_, text_, remark_, caution_}) {
        words->addWidget(part);
    }
    words->addStretch();
    scroll_ = new ScrolledPart(column, "tourScroll", tr("What the step says"), this);
    auto* keys = new QGridLayout;
    keys->setSpacing(4);
    keys->addWidget(place_, 0, 0, 1, 2);
    keys->addWidget(back_, 1, 0);
    keys->addWidget(on_, 1, 1);
    keys->addWidget(yes_, 2, 0);
    keys->addWidget(no_, 2, 1);
    keys->addWidget(anew_, 3, 0);
    keys->addWidget(close_, 3, 1);
    keys->setRowStretch(4, 1);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 8, 16, 8);
    row->setSpacing(16);
    row->addWidget(scroll_, 1000); // as far as a line may be long, then room
    row->addStretch(1);
    row->addLayout(keys);
    keys_ = keys;
}

void TourPanel::setPages(std::vector<TourPage> pages) {
    pages_ = std::move(pages);
}

/// The words take up to a quarter of the window, and are scrolled where they are longer.
void TourPanel::fitWords() {
    scroll_->setMaximumWidth(longestLine * fontMetrics().averageCharWidth());
    layout()->activate();
    const int keys = keys_->sizeHint().height();
    const int most = std::max(window()->height() / 4, keys);
    int wanted = pages_.empty() ? scroll_->heightAt(scroll_->width()) : keys;
    for (const TourPage& page : pages_) {
        wanted = std::max(wanted, heightOf(page, scroll_->width()));
    }
    scroll_->setFixedHeight(std::min(wanted, most));
}

int TourPanel::heightOf(const TourPage& page, int width) const {
    const std::array<std::pair<const QLabel*, QString>, 5> parts{
        {{title_, titleOf(page)},
         {praise_, page.praise},
         {text_, page.text},
         {remark_, page.remark},
         {caution_, page.caution}}};
    int height = 0;
    for (const auto& [label, words] : parts) {
        if (!words.isEmpty()) {
            const QRect room(0, 0, width, QWIDGETSIZE_MAX);
            height += label->fontMetrics().boundingRect(room, Qt::TextWordWrap, words).height();
            height += height > 0 ? rowGap : 0;
        }
    }
    return height;
}

bool TourPanel::event(QEvent* event) {
    const bool done = QWidget::event(event);
    if (event->type() == QEvent::Show) {
        window()->installEventFilter(this);
    }
    if (event->type() == QEvent::Show || event->type() == QEvent::Resize ||
        event->type() == QEvent::FontChange) {
        fitWords();
    }
    return done;
}

bool TourPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == window() && event->type() == QEvent::Resize && isVisible()) {
        fitWords();
    }
    return QWidget::eventFilter(watched, event);
}

void TourPanel::setAsking(bool asking) {
    asking_ = asking;
    yes_->setVisible(asking);
    no_->setVisible(asking);
    for (QWidget* part : std::initializer_list<QWidget*>{place_, back_, on_, anew_, close_}) {
        part->setVisible(!asking);
    }
}

void TourPanel::show(const TourPage& page) {
    const bool isNew = asking_ || page != page_;
    const bool isNewStep = asking_ || page.number != page_.number || page.text != page_.text;
    const bool isNewRemark = page.remark != page_.remark && !page.remark.isEmpty();
    page_ = page;
    setAsking(false);
    title_->setText(titleOf(page));
    set(*praise_, page.praise);
    set(*text_, page.text);
    set(*remark_, page.remark);
    set(*caution_, page.caution);
    place_->setEnabled(page.hasPlace);
    back_->setEnabled(page.number > 1);
    on_->setEnabled(page.number < page.count);
    fitWords();
    if (isNewStep) {
        scroll_->verticalScrollBar()->setValue(0);
    } else if (isNewRemark) {
        scroll_->ensureWidgetVisible(remark_);
    }
    if (isNew) {
        announce();
    }
}

void TourPanel::ask(const QString& words) {
    setAsking(true);
    title_->setText(tr("Start again"));
    set(*text_, words);
    for (QLabel* part : {praise_, remark_, caution_}) {
        part->hide();
    }
    fitWords();
    scroll_->verticalScrollBar()->setValue(0);
    announce();
    no_->setFocus(Qt::OtherFocusReason);
}

/// A screen reader hears the step without having to look for it.
void TourPanel::announce() {
    QStringList all{title_->text()};
    for (const QLabel* part : {praise_, text_, remark_, caution_}) {
        if (!part->isHidden()) {
            all << part->text();
        }
    }
    setAccessibleDescription(all.join(u' '));
    bedlore::announce(*this);
}

void TourPanel::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape) {
        QWidget::keyPressEvent(event);
    } else if (asking_) {
        Q_EMIT anewDeclined();
    } else {
        Q_EMIT closeWanted();
    }
}

} // namespace bedlore

#include "moc_tour_panel.cpp"
