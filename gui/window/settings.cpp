// SPDX-License-Identifier: MIT
#include "gui/window/settings.hpp"

#include <algorithm>

namespace bedlore {

namespace {

constexpr qsizetype mostBooks = 9;

// Names in the file: they outlive any change of the enumerators' order.
const auto paletteKey = QStringLiteral("palette");
const auto textKey = QStringLiteral("text");
const auto depthKey = QStringLiteral("units/depth");
const auto distanceKey = QStringLiteral("units/distance");
const auto northUpKey = QStringLiteral("plan/northUp");
const auto geometryKey = QStringLiteral("window/geometry");
const auto booksKey = QStringLiteral("books");
const auto watersKey = QStringLiteral("waters/");
const auto leftPageKey = QStringLiteral("/page");
const auto leftWaitsKey = QStringLiteral("/waits");
const auto foldersKey = QStringLiteral("folders/");
const auto hiddenKey = QStringLiteral("window/hidden");
const auto pdfKey = QStringLiteral("export/pdf");
const auto geotiffKey = QStringLiteral("export/geotiff");
const auto geojsonKey = QStringLiteral("export/geojson");
const auto tablesKey = QStringLiteral("export/tables");
const auto paperKey = QStringLiteral("print/paper");
const auto inkKey = QStringLiteral("print/ink");
const auto tourStepKey = QStringLiteral("tour/step");
const auto tourOpenKey = QStringLiteral("tour/open");

/// A path's slashes would be groups of the file.
QString leftKey(const QString& path) {
    return QStringLiteral("left/") + QString::fromLatin1(path.toUtf8().toHex());
}

QString layerKey(const MapLayer& layer) {
    return QStringLiteral("layers/") + QString::fromLatin1(layer.name).toLower();
}

/// A slash in a key would make a group of its own.
QString watersKeyOf(const QString& book) {
    return watersKey + QString::fromLatin1(book.toUtf8().toPercentEncoding());
}

QString nameOf(PaletteKind kind) {
    switch (kind) {
    case PaletteKind::Dark:
        return QStringLiteral("dark");
    case PaletteKind::Night:
        return QStringLiteral("night");
    case PaletteKind::Light:
    case PaletteKind::Print:
        break;
    }
    return QStringLiteral("light");
}

PaletteKind paletteNamed(const QString& name) {
    return name == QLatin1String("dark")    ? PaletteKind::Dark
           : name == QLatin1String("night") ? PaletteKind::Night
                                            : PaletteKind::Light;
}

QString nameOf(SheetPaper paper) {
    switch (paper) {
    case SheetPaper::A4:
        break;
    case SheetPaper::A5:
        return QStringLiteral("a5");
    case SheetPaper::A6:
        return QStringLiteral("a6");
    }
    return QStringLiteral("a4");
}

SheetPaper paperNamed(const QString& name) {
    return name == QLatin1String("a5")   ? SheetPaper::A5
           : name == QLatin1String("a6") ? SheetPaper::A6
                                         : SheetPaper::A4;
}

QString codeOf(Unit unit) {
    const std::string_view code = unitCode(unit);
    return QString::fromUtf8(code.data(), static_cast<qsizetype>(code.size()));
}

} // namespace

Settings::Settings(const QString& path)
    : store_(
          path.isEmpty() ? QSettings(
                               QSettings::IniFormat,
                               QSettings::UserScope,
                               QStringLiteral("bedlore"),
                               QStringLiteral("bedlore"))
                               .fileName()
                         : path,
          QSettings::IniFormat) {}

Preferences Settings::preferences() const {
    Preferences preferences;
    preferences.palette = paletteNamed(store_.value(paletteKey).toString());
    preferences.textScale =
        std::clamp(store_.value(textKey, 1.0).toDouble(), smallestText, largestText);
    const auto depth = unitFromCode(store_.value(depthKey).toString().toStdString());
    const auto distance = unitFromCode(store_.value(distanceKey).toString().toStdString());
    if (depth == Unit::Metre) {
        preferences.units.depth = Unit::Metre;
    }
    if (distance == Unit::Yard || distance == Unit::Metre || distance == Unit::Foot) {
        preferences.units.distance = *distance;
    }
    preferences.northUp = store_.value(northUpKey, false).toBool();
    for (const MapLayer& layer : mapLayers) {
        preferences.layers.*layer.shown = store_.value(layerKey(layer), true).toBool();
    }
    return preferences;
}

void Settings::keep(const Preferences& preferences) {
    store_.setValue(paletteKey, nameOf(preferences.palette));
    store_.setValue(textKey, preferences.textScale);
    store_.setValue(depthKey, codeOf(preferences.units.depth));
    store_.setValue(distanceKey, codeOf(preferences.units.distance));
    store_.setValue(northUpKey, preferences.northUp);
    for (const MapLayer& layer : mapLayers) {
        store_.setValue(layerKey(layer), preferences.layers.*layer.shown);
    }
}

QByteArray Settings::geometry() const {
    return store_.value(geometryKey).toByteArray();
}

void Settings::keepGeometry(const QByteArray& geometry) {
    store_.setValue(geometryKey, geometry);
}

QByteArray Settings::layout(const QString& name) const {
    return store_.value(QStringLiteral("window/") + name).toByteArray();
}

void Settings::keepLayout(const QString& name, const QByteArray& state) {
    store_.setValue(QStringLiteral("window/") + name, state);
}

bool Settings::isShown(const QString& name, bool usually) const {
    return store_.value(QStringLiteral("shown/") + name, usually).toBool();
}

void Settings::keepShown(const QString& name, bool shown) {
    store_.setValue(QStringLiteral("shown/") + name, shown);
}

QStringList Settings::lastBooks() const {
    return store_.value(booksKey).toStringList();
}

void Settings::keepLastBook(const QString& path) {
    QStringList books = lastBooks();
    books.removeAll(path);
    books.prepend(path);
    for (const QString& dropped : books.mid(mostBooks)) {
        store_.remove(watersKeyOf(dropped));
        store_.remove(leftKey(dropped));
    }
    store_.setValue(booksKey, books.mid(0, mostBooks));
}

void Settings::forgetBook(const QString& path) {
    QStringList books = lastBooks();
    books.removeAll(path);
    store_.remove(leftKey(path));
    store_.setValue(booksKey, books);
    store_.remove(watersKeyOf(path));
}

QString Settings::watersOf(const QString& book) const {
    return store_.value(watersKeyOf(book)).toString();
}

void Settings::keepWatersOf(const QString& book, const QString& words) {
    if (words.isEmpty()) {
        store_.remove(watersKeyOf(book));
    } else if (lastBooks().contains(book)) {
        store_.setValue(watersKeyOf(book), words);
    }
}

LeftBook Settings::leftBook(const QString& path) const {
    const QString key = leftKey(path);
    return {
        .page = store_.value(key + leftPageKey).toLongLong(),
        .waits = store_.value(key + leftWaitsKey).toString()};
}

void Settings::keep(const QString& path, const LeftBook& left) {
    if (!lastBooks().contains(path)) {
        return;
    }
    store_.setValue(leftKey(path) + leftPageKey, left.page);
    store_.setValue(leftKey(path) + leftWaitsKey, left.waits);
}

QString Settings::folder(const QString& kind) const {
    return store_.value(foldersKey + kind).toString();
}

void Settings::keepFolder(const QString& kind, const QString& path) {
    store_.setValue(foldersKey + kind, path);
}

ExportChoices Settings::exportChoices() const {
    ExportChoices choices;
    choices.pdf = store_.value(pdfKey, choices.pdf).toBool();
    choices.geotiff = store_.value(geotiffKey, choices.geotiff).toBool();
    choices.geojson = store_.value(geojsonKey, choices.geojson).toBool();
    choices.tables = store_.value(tablesKey, choices.tables).toBool();
    choices.paper = paperNamed(store_.value(paperKey).toString());
    choices.fill = store_.value(inkKey).toString() == QLatin1String("black") ? DepthFill::Plain
                                                                             : DepthFill::Colour;
    return choices;
}

void Settings::keep(const ExportChoices& choices) {
    store_.setValue(pdfKey, choices.pdf);
    store_.setValue(geotiffKey, choices.geotiff);
    store_.setValue(geojsonKey, choices.geojson);
    store_.setValue(tablesKey, choices.tables);
    store_.setValue(paperKey, nameOf(choices.paper));
    const bool isBlack = choices.fill != DepthFill::Colour;
    store_.setValue(inkKey, isBlack ? QStringLiteral("black") : QStringLiteral("colour"));
}

QStringList Settings::hiddenPanels() const {
    return store_.value(hiddenKey).toStringList();
}

void Settings::keepHiddenPanels(const QStringList& names) {
    store_.setValue(hiddenKey, names);
}

QString Settings::tourStep() const {
    return store_.value(tourStepKey).toString();
}

void Settings::keepTourStep(const QString& name) {
    store_.setValue(tourStepKey, name);
}

bool Settings::tourIsOpen() const {
    return store_.value(tourOpenKey, false).toBool();
}

void Settings::keepTourIsOpen(bool open) {
    store_.setValue(tourOpenKey, open);
}

} // namespace bedlore
