// SPDX-License-Identifier: MIT
#include "gui/dialogs/print_dialog.hpp"

#include "gui/dialogs/file_questions.hpp"
#include "gui/dialogs/tier_choice.hpp"
#include "gui/widgets/plain_label.hpp"
#include "gui/widgets/scrolled_part.hpp"
#include "gui/widgets/sheet_view.hpp"
#include "gui/widgets/wrapped_row.hpp"

#include <QButtonGroup>
#include <QComboBox>
#include <QDir>
#include <QHBoxLayout>
#include <QLabel>
#include <QPageSize>
#include <QPainter>
#include <QPrinter>
#include <QPrinterInfo>
#include <QPushButton>
#include <QRadioButton>
#include <QStyle>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

const auto sheetJob = QStringLiteral("sheet");
const auto pdfJob = QStringLiteral("pdf");

constexpr int leastSide = 360;  // [px] for the choices
constexpr int leastSheet = 240; // [px] left for the sheet beside them

QLabel* heading(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setProperty("heading", true);
    return label;
}

/// One of several, side by side.
struct Option {
    int id;
    const char* name;
    QString words;
};

QButtonGroup*
optionRow(const std::vector<Option>& options, int chosen, QLayout& column, QWidget* parent) {
    auto* group = new QButtonGroup(parent);
    auto* row = new WrappedRow;
    row->setSpacing(16);
    for (const Option& option : options) {
        auto* button = new QRadioButton(option.words, parent);
        button->setObjectName(QString::fromLatin1(option.name));
        group->addButton(button, option.id);
        row->addWidget(button);
    }
    group->button(chosen)->setChecked(true);
    static_cast<QBoxLayout&>(column).addLayout(row);
    return group;
}

} // namespace

PrintDialog::PrintDialog(std::shared_ptr<const BedMap> map, const Start& start, QWidget* parent)
    : QDialog(parent)
    , map_(std::move(map))
    , start_(start)
    , view_(new SheetView(this)) {
    setObjectName(QStringLiteral("printDialog"));
    setWindowTitle(tr("Print the map"));
    view_->setColours(start.colours);
    said_ = plainLabel("printSaid", this);
    QWidget* side = buildSide();
    pdf_ = new QPushButton(tr("&Write a PDF…"), this);
    pdf_->setObjectName(QStringLiteral("printPdf"));
    auto* close = new QPushButton(tr("&Close"), this);
    auto* buttons = new WrappedRow;
    buttons->setSpacing(8);
    buttons->addWidget(pdf_);
    buttons->addWidget(print_);
    buttons->addWidget(close);
    static_cast<QVBoxLayout*>(side->layout())->addLayout(buttons);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(16, 16, 16, 16);
    row->setSpacing(16);
    row->addWidget(view_, 1);
    row->addWidget(side);
    resizeForText(*this, QSize(1080, 660));
    const int most = std::max(leastSide, width() - leastSheet);
    side->setFixedWidth(std::clamp(side->sizeHint().width(), leastSide, most));
    connect(pdf_, &QPushButton::clicked, this, &PrintDialog::askPdf);
    connect(print_, &QPushButton::clicked, this, &PrintDialog::print);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    pdf_->setDefault(true);
    view_->setFocus();
    drawAgain();
}

/// The choices, scrolled where they do not fit, with the printer below them at all times.
QWidget* PrintDialog::buildSide() {
    auto* inside = new QWidget;
    auto* choices = new QVBoxLayout(inside);
    choices->setContentsMargins(0, 0, 0, 0);
    choices->setSpacing(8);
    addChoices(*choices);
    choices->addStretch();
    choices->addWidget(said_);
    auto* side = new QWidget(this);
    auto* column = new QVBoxLayout(side);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(new ScrolledPart(inside, "printScroll", tr("What is printed"), side), 1);
    addPrinters(*column);
    return side;
}

void PrintDialog::addChoices(QLayout& column) {
    column.addWidget(heading(tr("Paper"), this));
    papers_ = optionRow(
        {{static_cast<int>(SheetPaper::A4), "paperA4", tr("A&4")},
         {static_cast<int>(SheetPaper::A5), "paperA5", tr("A&5")},
         {static_cast<int>(SheetPaper::A6), "paperA6", tr("A&6")}},
        static_cast<int>(start_.paper),
        column,
        this);
    column.addWidget(heading(tr("Ink"), this));
    inks_ = optionRow(
        {{static_cast<int>(DepthFill::Colour), "inkColour", tr("C&olour")},
         {static_cast<int>(DepthFill::Plain), "inkBlack", tr("Bl&ack on white")}},
        static_cast<int>(start_.fill),
        column,
        this);
    column.addWidget(heading(tr("How much"), this));
    tier_ = new TierChoice(this);
    column.addWidget(tier_);
    column.addWidget(heading(tr("The sheet holds"), this));
    holdings_ = plainLabel("printHoldings", this);
    column.addWidget(holdings_);
    auto* keys = plainLabel("printKeys", this);
    keys->setText(tr("On the sheet: + and - come nearer and go back, 0 shows all of it, the arrow "
                     "keys move it."));
    column.addWidget(keys);
    connect(papers_, &QButtonGroup::idToggled, this, &PrintDialog::showSheet);
    connect(inks_, &QButtonGroup::idToggled, this, &PrintDialog::showSheet);
    connect(tier_, &TierChoice::changed, this, &PrintDialog::drawAgain);
}

void PrintDialog::addPrinters(QLayout& column) {
    printers_ = new QComboBox(this);
    printers_->setObjectName(QStringLiteral("printers"));
    printers_->setAccessibleName(tr("Printer"));
    printers_->addItems(QPrinterInfo::availablePrinterNames());
    const int usual = printers_->findText(QPrinterInfo::defaultPrinterName());
    printers_->setCurrentIndex(std::max(0, usual));
    print_ = new QPushButton(tr("&Print"), this);
    print_->setObjectName(QStringLiteral("printPrint"));
    column.addWidget(printers_);
    const bool none = printers_->count() == 0;
    printers_->setHidden(none);
    print_->setHidden(none);
    if (none) {
        say(tr("No printer is set up on this machine: write a PDF and print that."));
    }
}

SheetPaper PrintDialog::paper() const {
    return static_cast<SheetPaper>(papers_->checkedId());
}

DepthFill PrintDialog::fill() const {
    return static_cast<DepthFill>(inks_->checkedId());
}

MapShare PrintDialog::share() const {
    return {.tier = tier_->tier(), .privateThings = tier_->privateThings(), .units = start_.units};
}

SheetOptions PrintDialog::options() const {
    return {.paper = paper(), .fill = fill(), .printed = start_.printed};
}

void PrintDialog::drawAgain() {
    sheet_ = nullptr;
    showSheet();
    jobs_.start(
        sheetJob,
        tr("drawing the sheet"),
        [map = map_, share = share()](const Progress& progress) {
            return std::make_shared<const Result<MapDrawing>>(leavingMap(map, share, progress));
        },
        [this](const std::shared_ptr<const Result<MapDrawing>>& drawn) {
            if (!*drawn) {
                say(QString::fromStdString(drawn->error().message), true);
                return;
            }
            sheet_ = std::shared_ptr<const MapDrawing>(drawn, &**drawn);
            showSheet();
        });
}

void PrintDialog::showSheet() {
    view_->setSheet(sheet_, options());
    pdf_->setEnabled(sheet_ != nullptr);
    print_->setEnabled(sheet_ != nullptr);
    if (sheet_ == nullptr) {
        return;
    }
    QStringList holds;
    for (const std::string& line : holdings(*sheet_, MapFileKind::Pdf, share().privateThings)) {
        holds << QString::fromStdString(line);
    }
    holdings_->setText(holds.join(u'\n'));
}

void PrintDialog::askPdf() {
    const QString name =
        share().tier == SharingTier::All ? tr("%1 map.pdf").arg(start_.name) : tr("map.pdf");
    const QString path = askNameToWrite(
        this,
        {.caption = tr("Where the PDF goes"),
         .start = QDir(start_.folder).filePath(name),
         .filter = tr("PDF (*.pdf)"),
         .ending = QStringLiteral(".pdf")});
    if (!path.isEmpty()) {
        writePdf(path.toStdString());
    }
}

void PrintDialog::writePdf(const std::filesystem::path& path) {
    if (sheet_ == nullptr) {
        return;
    }
    jobs_.start(
        pdfJob,
        tr("writing the PDF"),
        [sheet = sheet_, options = options(), path](const Progress&) {
            return writeSheetPdf(path, *sheet, options);
        },
        [this, path](const Result<void>& written) {
            if (written) {
                say(QString::fromStdString(writtenWords({path})));
            } else {
                say(QString::fromStdString(written.error().message), true);
            }
        });
}

void PrintDialog::print() {
    if (sheet_ == nullptr) {
        return;
    }
    const QPrinterInfo info = QPrinterInfo::printerInfo(printers_->currentText());
    QPrinter printer(info, QPrinter::HighResolution);
    printer.setFullPage(true);
    printer.setPageSize(QPageSize(paperSize(paper()), QPageSize::Millimeter));
    printer.setDocName(QString()); // a queue shows it to others
    QPainter painter;
    if (info.isNull() || !painter.begin(&printer)) {
        say(tr("The printer %1 does not answer. See that it is switched on and set up, or write a "
               "PDF and print that.")
                .arg(printers_->currentText()),
            true);
        return;
    }
    constexpr double millimetresPerInch = 25.4;
    const double scale = printer.resolution() / millimetresPerInch;
    painter.scale(scale, scale);
    paintSheet(painter, *sheet_, paperSize(paper()), options());
    if (painter.end()) {
        say(tr("Sent to the printer %1.").arg(printers_->currentText()));
    } else {
        say(tr("The printer %1 did not take the sheet. See what its queue says and print again, or "
               "write a PDF.")
                .arg(printers_->currentText()),
            true);
    }
}

void PrintDialog::say(const QString& words, bool isWarning) {
    said_->setText(words);
    said_->setProperty("warning", isWarning);
    said_->style()->unpolish(said_);
    said_->style()->polish(said_);
}

} // namespace bedlore

#include "moc_print_dialog.cpp"
