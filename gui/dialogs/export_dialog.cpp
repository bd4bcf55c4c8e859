// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"

#include "core/io/new_folder.hpp"
#include "gui/dialogs/file_questions.hpp"
#include "gui/dialogs/tier_choice.hpp"
#include "gui/widgets/scrolled_part.hpp"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QDir>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <utility>

namespace bedlore {

namespace {

QLabel* heading(const QString& text, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setProperty("heading", true);
    return label;
}

QCheckBox* tick(const QString& text, const char* name, QLayout& column, QWidget* parent) {
    auto* box = new QCheckBox(text, parent);
    box->setObjectName(QString::fromLatin1(name));
    column.addWidget(box);
    return box;
}

QLabel* plainText(const char* name, QLayout& column, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setMinimumWidth(420);
    column.addWidget(label);
    return label;
}

QString pathName(const std::filesystem::path& path) {
    return QString::fromStdString(path.filename().string());
}

} // namespace

ExportDialog::ExportDialog(std::shared_ptr<const BedMap> map, Start start, QWidget* parent)
    : QDialog(parent)
    , map_(std::move(map))
    , start_(std::move(start))
    , path_(new QLineEdit(this))
    , tier_(new TierChoice(this)) {
    setObjectName(QStringLiteral("exportDialog"));
    setWindowTitle(tr("Export the map"));
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    addFormats(*column);
    column->addSpacing(8);
    column->addWidget(heading(tr("How much"), this));
    column->addWidget(tier_);
    column->addSpacing(8);
    column->addWidget(heading(tr("What each file will hold"), this));
    holdings_ = plainText("exportHoldings", *column, this);
    column->addSpacing(8);
    addWhereTo(*column);
    column->addStretch();
    scroll_ = new ScrolledPart(inside, "exportScroll", {}, this);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    write_ = buttons->addButton(tr("&Write"), QDialogButtonBox::AcceptRole);
    write_->setObjectName(QStringLiteral("exportWrite"));
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(16, 16, 16, 16);
    whole->setSpacing(8);
    whole->addWidget(scroll_, 1);
    whole->addWidget(buttons);

    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(path_, &QLineEdit::textChanged, this, &ExportDialog::refresh);
    connect(tier_, &TierChoice::changed, this, &ExportDialog::refresh);
    refresh();
}

void ExportDialog::addFormats(QLayout& column) {
    column.addWidget(heading(tr("What"), this));
    pdf_ = tick(tr("A sheet to print (&PDF)"), "exportPdf", column, this);
    geotiff_ = tick(tr("Depths for a map program (Geo&TIFF)"), "exportGeotiff", column, this);
    geojson_ =
        tick(tr("Lines and areas for a map program (Geo&JSON)"), "exportGeojson", column, this);
    tables_ = tick(tr("Tables for a &spreadsheet (CSV)"), "exportTables", column, this);
    pdf_->setChecked(start_.formats.pdf);
    geotiff_->setChecked(start_.formats.geotiff);
    geojson_->setChecked(start_.formats.geojson);
    tables_->setChecked(start_.formats.tables);
    for (QCheckBox* box : {pdf_, geotiff_, geojson_, tables_}) {
        connect(box, &QCheckBox::toggled, this, &ExportDialog::refresh);
    }
}

void ExportDialog::addWhereTo(QVBoxLayout& column) {
    column.addWidget(heading(tr("Where to"), this));
    path_->setObjectName(QStringLiteral("exportPath"));
    path_->setAccessibleName(tr("Folder and name without an ending"));
    auto* browseButton = new QPushButton(tr("&Choose…"), this);
    auto* row = new QHBoxLayout;
    row->addWidget(path_, 1);
    row->addWidget(browseButton);
    column.addLayout(row);
    names_ = plainText("exportNames", column, this);
    connect(browseButton, &QPushButton::clicked, this, &ExportDialog::browse);
}

MapShare ExportDialog::share() const {
    return {.tier = tier_->tier(), .privateThings = tier_->privateThings(), .units = start_.units};
}

MapFormats ExportDialog::formats() const {
    return {
        .geotiff = geotiff_->isChecked(),
        .geojson = geojson_->isChecked(),
        .pdf = pdf_->isChecked(),
        .tables = tables_->isChecked()};
}

QString ExportDialog::offeredPath() const {
    const QString name =
        share().tier == SharingTier::All ? tr("%1 map").arg(start_.name) : tr("map");
    return QDir(start_.folder).filePath(name);
}

MapFiles ExportDialog::files() const {
    MapFiles files;
    const std::string base = path_->text().toStdString();
    if (base.empty()) {
        return files;
    }
    if (pdf_->isChecked()) {
        files.pdf = base + ".pdf";
    }
    if (geotiff_->isChecked()) {
        files.geotiff = base + ".tif";
    }
    if (geojson_->isChecked()) {
        files.geojson = base + ".geojson";
    }
    if (tables_->isChecked()) {
        files.tables = base + " tables";
    }
    return files;
}

void ExportDialog::refresh() {
    if (path_->text() == offered_ && offered_ != offeredPath()) {
        offered_ = offeredPath();
        path_->setText(offered_); // comes back here
        return;
    }
    refreshHoldings();
    QStringList names;
    const MapFiles wanted = files();
    bool isFree = true;
    for (const std::filesystem::path& path : wanted.all()) {
        if (path == wanted.tables) {
            const Result<void> free = checkNewFolder(path);
            isFree = free.has_value();
            names
                << (free ? tr("%1 (a folder)").arg(pathName(path))
                         : QString::fromStdString(free.error().message));
            continue;
        }
        const bool there = std::filesystem::exists(path);
        const QString name = pathName(path);
        names << (there ? tr("%1 (takes the place of the one there)").arg(name) : name);
    }
    // Before anything is begun: one file that cannot be would keep the others from being written.
    if (const Result<void> has = checkWhatTheMapHas(*map_, wanted); !has) {
        names << QString::fromStdString(has.error().message);
        isFree = false;
    }
    names_->setText(names.join(u'\n'));
    write_->setEnabled(!names.isEmpty() && isFree);
    // What is said may have more lines now; a label that wraps tells its height for a width only.
    growToShow(*this, *scroll_);
}

void ExportDialog::refreshHoldings() {
    if (!shown_ || shown_->share != share()) { // not at each letter of the files' name
        shown_ = Shown{.share = share(), .drawing = shownMap(*map_, share())};
    }
    const MapDrawing& drawing = shown_->drawing;
    QStringList files;
    const auto say = [&](bool wanted, const QString& ending, MapFileKind kind) {
        QStringList parts;
        for (const std::string& part : holdings(drawing, kind, share().privateThings)) {
            parts << QString::fromStdString(part);
        }
        if (wanted) {
            files << ending + QStringLiteral(": ") + parts.join(QStringLiteral(", "));
        }
    };
    say(pdf_->isChecked(), QStringLiteral("PDF"), MapFileKind::Pdf);
    say(geotiff_->isChecked(), QStringLiteral("GeoTIFF"), MapFileKind::GeoTiff);
    say(geojson_->isChecked(), QStringLiteral("GeoJSON"), MapFileKind::GeoJson);
    say(tables_->isChecked(), tr("Tables"), MapFileKind::Tables);
    holdings_->setText(files.join(u'\n'));
}

void ExportDialog::browse() {
    const QString chosen = askFreeName(
        this, {.caption = tr("Where to"), .start = path_->text(), .filter = {}, .ending = {}});
    if (!chosen.isEmpty()) {
        const std::filesystem::path path = chosen.toStdString();
        path_->setText(QString::fromStdString((path.parent_path() / path.stem()).string()));
    }
}

} // namespace bedlore

#include "moc_export_dialog.cpp"
