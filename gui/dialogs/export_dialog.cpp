// SPDX-License-Identifier: MIT
#include "gui/dialogs/export_dialog.hpp"

#include <QButtonGroup>
#include <QCheckBox>
#include <QDialogButtonBox>
#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
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

} // namespace

ExportDialog::ExportDialog(std::shared_ptr<const BedMap> map, const Start& start, QWidget* parent)
    : QDialog(parent)
    , map_(std::move(map))
    , start_(start)
    , path_(new QLineEdit(this)) {
    setObjectName(QStringLiteral("exportDialog"));
    const bool print = start.purpose == Purpose::Print;
    setWindowTitle(print ? tr("Print the map to PDF") : tr("Export the map"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    addFormats(*column, start.purpose);
    column->addSpacing(8);
    addTiers(*column);
    column->addSpacing(8);
    column->addWidget(heading(tr("The files will hold"), this));
    holdings_ = plainText("exportHoldings", *column, this);
    column->addSpacing(8);
    column->addWidget(heading(tr("Where to"), this));
    auto* row = new QHBoxLayout;
    path_->setObjectName(QStringLiteral("exportPath"));
    path_->setAccessibleName(tr("Folder and name without an ending"));
    auto* browseButton = new QPushButton(tr("Choose…"), this);
    row->addWidget(path_, 1);
    row->addWidget(browseButton);
    column->addLayout(row);
    names_ = plainText("exportNames", *column, this);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    write_ = buttons->addButton(tr("Write"), QDialogButtonBox::AcceptRole);
    write_->setObjectName(QStringLiteral("exportWrite"));
    column->addWidget(buttons);

    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(browseButton, &QPushButton::clicked, this, &ExportDialog::browse);
    connect(path_, &QLineEdit::textChanged, this, &ExportDialog::refresh);
    refresh();
}

void ExportDialog::addFormats(QLayout& column, Purpose purpose) {
    column.addWidget(heading(tr("What"), this));
    pdf_ = tick(tr("A sheet to print (PDF)"), "exportPdf", column, this);
    geotiff_ = tick(tr("Depths for a map program (GeoTIFF)"), "exportGeotiff", column, this);
    geojson_ =
        tick(tr("Lines and areas for a map program (GeoJSON)"), "exportGeojson", column, this);
    pdf_->setChecked(true);
    const bool print = purpose == Purpose::Print;
    geotiff_->setHidden(print);
    geojson_->setHidden(print);
    for (QCheckBox* box : {pdf_, geotiff_, geojson_}) {
        connect(box, &QCheckBox::toggled, this, &ExportDialog::refresh);
    }
}

void ExportDialog::addTiers(QLayout& column) {
    column.addWidget(heading(tr("How much"), this));
    tiers_ = new QButtonGroup(this);
    const std::pair<SharingTier, QString> rows[] = {
        {SharingTier::Depth, tr("Depths only: nothing that shows where you fish")},
        {SharingTier::Bottom, tr("With the bottom (not built yet: depths only for now)")},
        {SharingTier::All, tr("Everything: casts, readings, swims and how sure, for yourself")}};
    for (const auto& [tier, words] : rows) {
        auto* button = new QRadioButton(words, this);
        button->setObjectName(
            QStringLiteral("tier_") + QString::fromUtf8(bedlore::word(tier).data()));
        tiers_->addButton(button, static_cast<int>(tier));
        column.addWidget(button);
    }
    tiers_->button(static_cast<int>(SharingTier::Depth))->setChecked(true);
    private_ = tick(tr("Private spots and marks too"), "exportPrivate", column, this);
    connect(tiers_, &QButtonGroup::idToggled, this, &ExportDialog::refresh);
    connect(private_, &QCheckBox::toggled, this, &ExportDialog::refresh);
}

MapShare ExportDialog::share() const {
    return {
        .tier = static_cast<SharingTier>(tiers_->checkedId()),
        .privateThings = private_->isChecked() ? PrivateThings::Include : PrivateThings::LeaveOut,
        .units = start_.units};
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
    return files;
}

void ExportDialog::refresh() {
    const bool everything = share().tier == SharingTier::All;
    private_->setEnabled(everything);
    if (!everything) {
        private_->setChecked(false);
    }
    if (path_->text() == offered_ && offered_ != offeredPath()) {
        offered_ = offeredPath();
        path_->setText(offered_); // comes back here
        return;
    }
    QStringList holds;
    for (const std::string& line : holdings(shownMap(*map_, share()), files())) {
        holds << QString::fromStdString(line);
    }
    holdings_->setText(holds.join(u'\n'));
    QStringList names;
    for (const std::filesystem::path& path : files().all()) {
        const bool there = std::filesystem::exists(path);
        const QString name = QString::fromStdString(path.filename().string());
        names << (there ? tr("%1 (takes the place of the one there)").arg(name) : name);
    }
    names_->setText(names.join(u'\n'));
    write_->setEnabled(!names.isEmpty());
}

void ExportDialog::browse() {
    const QString chosen = QFileDialog::getSaveFileName(
        this, tr("Where to"), path_->text(), QString(), nullptr, QFileDialog::DontConfirmOverwrite);
    if (!chosen.isEmpty()) {
        const std::filesystem::path path = chosen.toStdString();
        path_->setText(QString::fromStdString((path.parent_path() / path.stem()).string()));
    }
}

} // namespace bedlore

#include "moc_export_dialog.cpp"
