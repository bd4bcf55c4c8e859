// SPDX-License-Identifier: MIT
#include "gui/window/main_window.hpp"

#include "gui/dialogs/help_window.hpp"
#include "gui/document/waiting_pages.hpp"
#include "gui/panels/tour_panel.hpp"
#include "gui/widgets/choice_line.hpp"
#include "gui/widgets/foot_line.hpp"
#include "gui/widgets/message_bar.hpp"
#include "gui/widgets/plain_text.hpp"
#include "gui/widgets/window_header.hpp"
#include "gui/window/actions.hpp"
#include "gui/window/appearance.hpp"
#include "gui/window/recent_books.hpp"
#include "gui/window/start_panel.hpp"
#include "gui/window/tour_guide.hpp"
#include "gui/window/where_choices.hpp"

#include <QAbstractButton>
#include <QAction>
#include <QCloseEvent>
#include <QCoreApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMenu>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include <utility>

namespace bedlore {

namespace {

constexpr QSize usualSize(1280, 720);

QToolButton* headerButton(QAction* action, const QString& text, QLayout& row, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setText(text);
    button->setAutoRaise(true);
    button->setFocusPolicy(Qt::TabFocus);
    QObject::connect(button, &QToolButton::clicked, action, &QAction::trigger);
    QObject::connect(action, &QAction::changed, button, [button, action] {
        button->setEnabled(action->isEnabled());
    });
    row.addWidget(button);
    return button;
}

/// The same acts under one button, for a window that has no room for theirs.
QToolButton* headerMenu(const MainWindow& window) {
    auto* button = new QToolButton;
    button->setObjectName(QStringLiteral("headerMore"));
    button->setText(MainWindow::tr("More…"));
    button->setAccessibleName(MainWindow::tr("Find, new page, print, export"));
    button->setAutoRaise(true);
    button->setFocusPolicy(Qt::TabFocus);
    button->setPopupMode(QToolButton::InstantPopup);
    auto* menu = new QMenu(button);
    for (const char* name : {"find", "newPage", "print", "export"}) {
        menu->addAction(window.action(QString::fromLatin1(name)));
    }
    button->setMenu(menu);
    return button;
}

} // namespace

MainWindow::MainWindow(const WindowOptions& options)
    : options_(options)
    , settings_(QString::fromStdString(options.settings.string()))
    , preferences_(settings_.preferences()) {
    setObjectName(QStringLiteral("mainWindow"));
    resize(usualSize);
    makeActions(*this);
    buildFrame();
    applyPreferences();
    restoreGeometry(settings_.geometry());
    refreshRecent();
    showStart();
    if (!options.book.empty()) {
        openBook(options.book);
    }
}

MainWindow::~MainWindow() {
    dropDesk();
}

void MainWindow::buildFrame() {
    where_ = new ChoiceLine(
        {{.objectName = QStringLiteral("whereWater"), .accessibleName = tr("Water")},
         {.objectName = QStringLiteral("whereSwim"), .accessibleName = tr("Swim")},
         {.objectName = QStringLiteral("whereVisit"), .accessibleName = tr("Visit and its page")}});
    auto* buttons = new QWidget;
    auto* row = new QHBoxLayout(buttons);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(4);
    headerButton(action(QStringLiteral("find")), tr("Find"), *row, buttons);
    headerButton(action(QStringLiteral("newPage")), tr("New page"), *row, buttons);
    headerButton(action(QStringLiteral("print")), tr("Print"), *row, buttons);
    headerButton(action(QStringLiteral("export")), tr("Export"), *row, buttons);
    auto* header = new WindowHeader(where_, buttons, headerMenu(*this));
    header_ = header;
    messages_ = new MessageBar;
    guide_ = new TourGuide(*this, options_.practice);
    connect(guide_, &TourGuide::warned, messages_, &MessageBar::warn);
    header->giveWayTo(guide_->panel());
    body_ = new QStackedWidget;
    foot_ = new FootLine;
    auto* whole = new QWidget;
    auto* column = new QVBoxLayout(whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(header_);
    column->addWidget(messages_);
    column->addWidget(guide_->panel());
    column->addWidget(body_, 1);
    column->addWidget(foot_);
    setCentralWidget(whole);
    dropHint_ = new QLabel(this);
    dropHint_->setObjectName(QStringLiteral("dropHint"));
    dropHint_->setTextFormat(Qt::PlainText);
    dropHint_->setWordWrap(true);
    dropHint_->setAlignment(Qt::AlignCenter);
    dropHint_->hide();
    setAcceptDrops(true);
    connect(foot_, &FootLine::stopWanted, this, &MainWindow::stopWork);
}

QAction* MainWindow::action(const QString& name) const {
    return findChild<QAction*>(name, Qt::FindDirectChildrenOnly);
}

void MainWindow::showStart() {
    while (body_->count() > 0) {
        QWidget* old = body_->widget(0);
        body_->removeWidget(old);
        old->deleteLater(); // it may be the sender of what brought us here
    }
    auto* start = new StartPanel(recentBooks(settings_));
    body_->addWidget(start);
    body_->setCurrentWidget(start);
    connect(start, &StartPanel::newWanted, this, &MainWindow::askNewBook);
    connect(start, &StartPanel::openWanted, this, &MainWindow::askOpenBook);
    connect(start, &StartPanel::practiceWanted, this, &MainWindow::openPractice);
    connect(start, &StartPanel::bookWanted, this, [this](const QString& path) {
        openBook(path.toStdString());
    });
    connect(start, &StartPanel::forgetWanted, this, [this](const QString& path) {
        settings_.forgetBook(path);
        showStart();
        refreshRecent();
    });
    header_->hide();
    foot_->hide();
    refreshActions();
    refreshTitle();
    start->setFocus();
}

bool MainWindow::leaveDesk() {
    if (desk_ == nullptr) {
        return true;
    }
    if (!desk_->close()) {
        return false;
    }
    desk_->keepLayout(settings_);
    keepLeftBook();
    dropDesk();
    return true;
}

void MainWindow::keepLeftBook() {
    const auto page = desk_->shownPage();
    settings_.keep(
        bookPath(),
        {.page = page ? static_cast<qlonglong>(page->value) : 0,
         .waits = QString::fromStdString(waitingPagesWords(*desk_->document().book()))});
}

/// A desk that goes stops its jobs and says so: nobody may listen to it any more by then.
void MainWindow::dropDesk() {
    if (desk_ == nullptr) {
        return;
    }
    desk_->disconnect(this);
    desk_->page().disconnect(this);
    desk_->document().disconnect(this);
    desk_->jobs().disconnect(this);
    desk_->builder().disconnect(this);
    guide_->leave();
    body_->removeWidget(desk_);
    delete std::exchange(desk_, nullptr);
}

bool MainWindow::closeBook() {
    if (!leaveDesk()) {
        return false;
    }
    messages_->clear();
    showStart();
    return true;
}

/// A book that cannot be had leaves the one on the desk where it is.
bool MainWindow::takeUp(Result<std::unique_ptr<Document>> document) {
    if (!document && desk_ != nullptr) {
        messages_->warn(QString::fromStdString(document.error().message));
        return false;
    }
    if (!leaveDesk()) {
        return false;
    }
    putOnDesk(std::move(document));
    return desk_ != nullptr;
}

bool MainWindow::openBook(const std::filesystem::path& path) {
    std::error_code none;
    const bool again =
        desk_ != nullptr && std::filesystem::equivalent(path, desk_->document().path(), none);
    // One book is not opened twice at a time: only one of them could write.
    if (again && !leaveDesk()) {
        return false;
    }
    return takeUp(Document::open(path));
}

void MainWindow::openAgain() {
    if (desk_ == nullptr) {
        return;
    }
    const std::filesystem::path path = desk_->document().path();
    const Whereabouts where = desk_->whereabouts();
    const auto page = desk_->shownPage();
    const bool couldWrite = desk_->document().isWritable();
    if (!openBook(path)) {
        return;
    }
    desk_->goTo(where);
    if (page && desk_->document().book()->find(*page) != nullptr) {
        desk_->goToPage(*page);
    }
    if (!couldWrite && desk_->document().isWritable()) {
        const QString notices = openingWords(desk_->document());
        messages_->say(notices.isEmpty() ? tr("The book can be written in now.") : notices);
    }
}

QString MainWindow::openingWords(const Document& document) {
    QStringList sentences = document.notices();
    if (!document.isWritable() && !sentences.isEmpty()) {
        sentences << tr("When that is over, choose Open again in the Book menu.");
    }
    return sentences.join(u' ');
}

bool MainWindow::newBook(const std::filesystem::path& path) {
    // What could not be kept must not leave a new book behind.
    if (desk_ != nullptr && !desk_->page().keep()) {
        return false;
    }
    return takeUp(Document::create(path));
}

void MainWindow::putOnDesk(Result<std::unique_ptr<Document>> document) {
    messages_->clear();
    if (!document) {
        showStart();
        messages_->warn(QString::fromStdString(document.error().message));
        return;
    }
    while (body_->count() > 0) {
        QWidget* old = body_->widget(0);
        body_->removeWidget(old);
        old->deleteLater(); // it may be the sender of what brought us here
    }
    const QString notices = openingWords(**document);
    desk_ = new Desk(std::move(*document), preferences_, body_);
    body_->addWidget(desk_);
    body_->setCurrentWidget(desk_);
    desk_->restoreLayout(settings_);
    if (preferences_.northUp) {
        desk_->plan().lookNorthUp();
    }
    connectDesk();
    header_->show();
    foot_->show();
    if (!notices.isEmpty()) {
        messages_->say(notices);
    }
    settings_.keepLastBook(bookPath());
    rememberedWaters_.reset();
    const LeftBook left = settings_.leftBook(bookPath());
    desk_->goOnFrom(
        left.page != 0 ? std::optional(Id<Page>{static_cast<std::int64_t>(left.page)})
                       : std::nullopt);
    refreshWhere();
    refreshRecent();
    refreshActions();
    refreshTitle();
    foot_->setKept(!desk_->page().hasUnkept(), !desk_->document().isWritable());
    desk_->page().setFocus();
    guide_->follow(*desk_);
}

void MainWindow::connectDesk() {
    connect(desk_, &Desk::moved, this, &MainWindow::refreshWhere);
    connect(&desk_->page(), &PagePanel::pageChanged, this, &MainWindow::keepLeftBook);
    connect(desk_, &Desk::readout, foot_, &FootLine::setPointer);
    connect(desk_, &Desk::said, messages_, &MessageBar::say);
    connect(desk_, &Desk::warned, messages_, &MessageBar::warn);
    connect(desk_, &Desk::told, messages_, &MessageBar::sayToStay);
    connect(desk_, &Desk::keptChanged, this, [this](bool kept) {
        foot_->setKept(kept, !desk_->document().isWritable());
        refreshActions();
    });
    connect(&desk_->document(), &Document::changed, this, [this] {
        messages_->clearPassing();
        refreshActions();
    });
    connect(&desk_->jobs(), &JobBoard::changed, this, &MainWindow::refreshWork);
    connect(&desk_->jobs(), &JobBoard::progressed, this, [this](const QString&, double share) {
        foot_->setShare(share);
    });
    connect(&desk_->builder(), &BedBuilder::built, this, &MainWindow::refreshActions);
}

void MainWindow::refreshTitle() {
    setWindowTitle(desk_ == nullptr ? tr("Bedlore") : plainTitle(desk_->document().name()));
}

void MainWindow::refreshWhere() {
    if (desk_ != nullptr) {
        showWhereabouts(*where_, *desk_);
        rememberWaters();
    }
}

/// The list of the last books says what each is about without opening it.
void MainWindow::rememberWaters() {
    const QString waters = waterNames(*desk_->document().book());
    if (rememberedWaters_ != waters) {
        rememberedWaters_ = waters;
        settings_.keepWatersOf(bookPath(), waters);
        refreshRecent();
    }
}

QString MainWindow::bookPath() const {
    return QString::fromStdString(std::filesystem::absolute(desk_->document().path()).string());
}

void MainWindow::refreshActions() {
    enableActions(*this);
}

void MainWindow::applyPreferences() {
    dress(preferences_.palette, preferences_.textScale);
    // Those of the system would come up in white.
    QCoreApplication::setAttribute(
        Qt::AA_DontUseNativeDialogs, preferences_.palette == PaletteKind::Night);
    if (help_ != nullptr) {
        help_->setColours(preferences_.palette);
    }
    foot_->setRows(preferences_.textScale > 1.6 ? 2 : 1);
    if (desk_ != nullptr) {
        desk_->setPreferences(preferences_);
    }
    settings_.keep(preferences_);
    refreshActions();
}

void MainWindow::keyPressEvent(QKeyEvent* event) {
    auto* button = qobject_cast<QAbstractButton*>(focusWidget());
    const bool enters = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enters && button != nullptr) {
        button->click();
    } else {
        QMainWindow::keyPressEvent(event);
    }
}

bool MainWindow::event(QEvent* event) {
    if (event->type() == QEvent::WindowActivate && desk_ != nullptr) {
        desk_->catchUp();
    }
    return QMainWindow::event(event);
}

void MainWindow::closeEvent(QCloseEvent* event) {
    settings_.keepGeometry(saveGeometry());
    if (leaveDesk()) {
        event->accept();
    } else {
        event->ignore();
    }
}

} // namespace bedlore

#include "moc_main_window.cpp"
