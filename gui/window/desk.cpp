// SPDX-License-Identifier: MIT
#include "gui/window/desk.hpp"

#include "gui/dialogs/waiting_dialog.hpp"
#include "gui/document/reductions.hpp"
#include "gui/window/appearance.hpp"

#include <QPointer>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <utility>

namespace bedlore {

namespace {

// Widths of the three columns and heights of plan and side view at 1280 × 720.
const QList<int> usualColumns = {436, 652, 192};
const QList<int> usualMiddle = {420, 190};

// Panels that are hidden until they are asked for.
constexpr std::array listedPanels{Desk::Panel::Aims, Desk::Panel::Shorthand};

MapLook lookOf(const Preferences& preferences) {
    MapLook look;
    look.palette = preferences.palette;
    look.units = preferences.units;
    look.layers = preferences.layers;
    look.textSize = 9.5 * preferences.textScale;
    return look;
}

/// The panels that can be put away, under the names that they are remembered by.
const std::array<std::pair<Desk::Panel, const char*>, 3> panels = {{
    {Desk::Panel::Page, "page"},
    {Desk::Panel::SideView, "sideView"},
    {Desk::Panel::ChosenPlace, "place"},
}};

} // namespace

Desk::Desk(std::unique_ptr<Document> document, const Preferences& preferences, QWidget* parent)
    : QWidget(parent)
    , document_(std::move(document))
    , preferences_(preferences)
    , builder_(*document_, jobs_)
    , lastBook_(document_->book()) {
    setObjectName(QStringLiteral("desk"));
    buildLayout();
    connectParts();
    connectPanels();
    setTabChain();
    setPreferences(preferences);
    settle({});
    showPageOf(where_);
}

Desk::~Desk() {
    jobs_.stopAll();
}

void Desk::buildLayout() {
    page_ = new PagePanel(*document_);
    visit_ = new VisitPanel;
    left_ = new QStackedWidget;
    left_->setObjectName(QStringLiteral("leftPanel"));
    left_->addWidget(page_);
    left_->addWidget(visit_);
    aimsPanel_ = new AimsPanel;
    shorthand_ = new ShorthandPanel;
    leftColumn_ = new QSplitter(Qt::Vertical);
    leftColumn_->setObjectName(QStringLiteral("leftColumn"));
    for (QWidget* part : std::initializer_list<QWidget*>{left_, aimsPanel_, shorthand_}) {
        leftColumn_->addWidget(part);
    }
    leftColumn_->setStretchFactor(0, 2);
    leftColumn_->setStretchFactor(1, 2);
    leftColumn_->setStretchFactor(2, 1);
    aimsPanel_->hide();
    shorthand_->hide();
    plan_ = new PlanView;
    section_ = new SectionView(jobs_);
    placePanel_ = new PlacePanel;
    middle_ = new QSplitter(Qt::Vertical);
    middle_->setObjectName(QStringLiteral("middle"));
    middle_->addWidget(plan_);
    middle_->addWidget(section_);
    columns_ = new QSplitter(Qt::Horizontal);
    columns_->setObjectName(QStringLiteral("columns"));
    columns_->addWidget(leftColumn_);
    columns_->addWidget(middle_);
    columns_->addWidget(placePanel_);
    for (QSplitter* splitter : {middle_, columns_, leftColumn_}) {
        splitter->setHandleWidth(1);
        splitter->setChildrenCollapsible(false);
    }
    // The plan gets the room of a larger screen.
    columns_->setStretchFactor(1, 1);
    middle_->setStretchFactor(0, 1);
    columns_->setSizes(usualColumns);
    middle_->setSizes(usualMiddle);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    find_ = new FindPanel(*document_, jobs_);
    whole->addWidget(find_);
    whole->addWidget(columns_, 1);
    setFocusProxy(page_);
}

void Desk::connectParts() {
    connect(document_.get(), &Document::changed, this, &Desk::followChange);
    // The line just typed, and whatever else is to be repainted by now: not just when the map is
    // there to be shown.
    connect(document_.get(), &Document::beingWritten, this, [&editor = page_->editor()] {
        editor.viewport()->repaint(editor.cursorRect());
    });
    connect(document_.get(), &Document::failed, this, &Desk::warned);
    connect(document_.get(), &Document::caughtUp, this, &Desk::told);
    connect(&builder_, &BedBuilder::failed, this, &Desk::warned);
    connect(&builder_, &BedBuilder::built, this, &Desk::followBed);
    connect(page_, &PagePanel::keptChanged, this, &Desk::keptChanged);
    connect(page_, &PagePanel::couldNotKeep, this, &Desk::warned);
    connect(page_, &PagePanel::pageChanged, this, &Desk::followPage);
    connect(page_, &PagePanel::undoWanted, this, &Desk::undo);
    connect(page_, &PagePanel::redoWanted, this, &Desk::redo);
    connect(page_, &PagePanel::currentReadingChanged, this, [this] {
        if (const auto reading = page_->currentReading()) {
            showReading(*reading);
        }
    });
    connect(visit_, &VisitPanel::readingChosen, this, &Desk::showReading);
    connect(find_, &FindPanel::wanted, this, [this](const FoundPlace& place) { goToFound(place); });
    connect(find_, &FindPanel::putAway, this, [this] { left_->currentWidget()->setFocus(); });
    connect(plan_, &PlanView::pointedAt, this, &Desk::sayReadout);
    connect(plan_, &PlanView::pointedAway, this, [this] { Q_EMIT readout({}); });
    connect(plan_, &PlanView::placeChosen, this, [this](Point place) { choosePlace(place); });
    connect(plan_, &PlanView::placeCleared, this, [this] { choosePlace(std::nullopt); });
    connect(plan_, &PlanView::scaled, section_, &SectionView::setPlanScale);
    connect(section_, &SectionView::pointedAt, this, &Desk::sayReadout);
    connect(section_, &SectionView::pointedAway, this, [this] { Q_EMIT readout({}); });
    connect(section_, &SectionView::placeChosen, this, [this](Point place) { choosePlace(place); });
    connect(section_, &SectionView::aimWanted, this, [this](std::size_t aim) { chooseAim(aim); });
}

QWidget& Desk::panel(Panel panel) {
    switch (panel) {
    case Panel::Page:
        return *left_;
    case Panel::SideView:
        return *section_;
    case Panel::ChosenPlace:
        return *placePanel_;
    case Panel::Aims:
        return *aimsPanel_;
    case Panel::Shorthand:
        return *shorthand_;
    }
    return *left_;
}

void Desk::setPreferences(const Preferences& preferences) {
    preferences_ = preferences;
    // Larger words need wider columns, beside which the plan still has its room: what does not fit
    // is wrapped or scrolled to.
    const double wider = std::min(preferences.textScale, 1.5);
    leftColumn_->setMinimumWidth(static_cast<int>(240 * wider));
    placePanel_->setMinimumWidth(static_cast<int>(168 * wider));
    page_->editor().setFont(pageFont(preferences.textScale));
    page_->setColours(preferences.palette);
    plan_->setColours(preferences.palette);
    section_->setColours(preferences.palette);
    section_->setUnits(preferences.units);
    builder_.setLook(lookOf(preferences));
    showAimsList();
    showPlace();
}

void Desk::restoreLayout(const Settings& settings) {
    for (QSplitter* splitter : {columns_, middle_, leftColumn_}) {
        splitter->restoreState(settings.layout(splitter->objectName()));
        splitter->setHandleWidth(1);
    }
    const QStringList hidden = settings.hiddenPanels();
    for (const auto& [which, name] : panels) {
        panel(which).setHidden(hidden.contains(QLatin1String(name)));
    }
    for (const Panel which : listedPanels) {
        QWidget& shown = panel(which);
        shown.setVisible(settings.isShown(shown.objectName(), false));
    }
    leftColumn_->setHidden(left_->isHidden() && aimsPanel_->isHidden() && shorthand_->isHidden());
    refreshShorthand();
    showAimsList();
}

void Desk::keepLayout(Settings& settings) {
    for (const QSplitter* splitter : {columns_, middle_, leftColumn_}) {
        settings.keepLayout(splitter->objectName(), splitter->saveState());
    }
    QStringList hidden;
    for (const auto& [which, name] : panels) {
        if (panel(which).isHidden()) {
            hidden << QLatin1String(name);
        }
    }
    settings.keepHiddenPanels(hidden);
    for (const Panel which : listedPanels) {
        settings.keepShown(panel(which).objectName(), !panel(which).isHidden());
    }
}

Result<void> Desk::writeDerivedShowing() {
    if (!document_->isWritable() || !document_->derivedIsStale()) {
        return {};
    }
    WaitingDialog dialog(
        {.title = tr("Closing the book"),
         .sentence = tr("What you noted is kept. The tables that other programs read are being "
                        "written; left out now, they are written the next time."),
         .share = tr("writing the tables, %p %"),
         .stop = tr("&Leave without them")},
        this);
    const QString kind = QStringLiteral("tables for other programs");
    connect(&jobs_, &JobBoard::progressed, &dialog, [&](const QString& of, double share) {
        if (of == kind) {
            dialog.showProgress(share);
        }
    });
    // With all else that runs: it may wait for a thread that draws the bed.
    connect(&dialog, &WaitingDialog::stopWanted, this, [this] { jobs_.stopAll(); });
    // The program may be told to quit while this waits: what comes then comes to nobody.
    const auto written = std::make_shared<std::optional<Result<void>>>();
    document_->writeDerivedBehind(
        {.jobs = jobs_, .kind = kind, .words = tr("writing the tables for other programs")},
        [book = document_->book(), drawn = map()](const Progress& progress) {
            return reductionsOf(book, drawn.get(), progress);
        },
        [written, shown = QPointer<WaitingDialog>(&dialog)](const Result<void>& result) {
            *written = result;
            if (shown != nullptr) {
                shown->end();
            }
        });
    if (!*written) {
        dialog.exec();
    }
    return written->value_or(fail(cancelledError()));
}

Result<void> Desk::writeDerived() {
    if (!hasManyDepths(*document_->book())) {
        return builder_.writeDerived();
    }
    // They are made from the book as the file has it, whoever changed it last.
    if (const Result<bool> news = document_->catchUp(); !news) {
        return fail(news.error());
    }
    const Result<void> written = writeDerivedShowing();
    const bool isStopped = !written && written.error().fault == Fault::Cancelled;
    return isStopped ? Result<void>{} : written;
}

bool Desk::close() {
    if (document_->isBusy()) {
        Q_EMIT warned(tr("The book is still being written to. Stop that, or wait until it is over, "
                         "then close once more."));
        return false;
    }
    if (!page_->keep()) {
        return false;
    }
    const Result<void> written = writeDerived();
    if (!written && !warnedAtClose_) {
        warnedAtClose_ = true;
        Q_EMIT warned(tr("%1 Close once more to leave all the same.")
                          .arg(QString::fromStdString(written.error().message)));
        return false;
    }
    jobs_.stopAll();
    return true;
}

void Desk::catchUp() {
    if (page_->hasUnkept()) {
        page_->keepInPause();
    } else {
        static_cast<void>(document_->catchUp()); // a failure is said by the document
    }
}

} // namespace bedlore

#include "moc_desk.cpp"
