// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/display_units.hpp"
#include "gui/document/map_layers.hpp"
#include "gui/paint/sheet_painter.hpp"
#include "gui/paint/theme.hpp"

#include <QByteArray>
#include <QSettings>
#include <QString>
#include <QStringList>

// What the window remembers between two evenings. Nothing about a water is among it, but the names
// of the last books and of their waters.

namespace bedlore {

/// The least and the largest text, and the step from one to the next, as shares of the usual size.
inline constexpr double smallestText = 1.0;
inline constexpr double largestText = 2.5;
inline constexpr double textStep = 0.25;

/// `textScale` is a share of the usual size.
struct Preferences {
    PaletteKind palette = PaletteKind::Light;
    double textScale = 1.0;
    DisplayUnits units;
    MapLayers layers;
    bool northUp = false; ///< the plan, rather than as seen from the bank
    friend bool operator==(const Preferences&, const Preferences&) = default;
};

/// What he last wrote and printed. How much leaves is not among it: each time begins with depths
/// alone and nothing private.
struct ExportChoices {
    bool pdf = true;
    bool geotiff = false;
    bool geojson = false;
    bool tables = false;
    SheetPaper paper = SheetPaper::A4;
    DepthFill fill = DepthFill::Colour;
    friend bool operator==(const ExportChoices&, const ExportChoices&) = default;
};

/// How he left a book: the page, by its number in the book, 0 for none; and what waits there to be
/// completed, in a sentence.
struct LeftBook {
    qlonglong page = 0;
    QString waits;
    friend bool operator==(const LeftBook&, const LeftBook&) = default;
};

/// Kept in an INI file: at `path`, or at the usual place of the system where it is empty.
class Settings {
public:
    explicit Settings(const QString& path = {});

    [[nodiscard]] Preferences preferences() const;
    void keep(const Preferences& preferences);

    [[nodiscard]] QByteArray geometry() const;
    void keepGeometry(const QByteArray& geometry);
    /// State of a splitter under its object name.
    [[nodiscard]] QByteArray layout(const QString& name) const;
    void keepLayout(const QString& name, const QByteArray& state);

    /// Whether a panel is shown, under its object name.
    [[nodiscard]] bool isShown(const QString& name, bool usually) const;
    void keepShown(const QString& name, bool shown);

    /// The latest first.
    [[nodiscard]] QStringList lastBooks() const;
    void keepLastBook(const QString& path);
    /// With all that is remembered of it.
    void forgetBook(const QString& path);
    /// What waters a book of the last ones was about when it was open, in words; empty where nobody
    /// has said. Only books of the last ones are remembered.
    [[nodiscard]] QString watersOf(const QString& book) const;
    void keepWatersOf(const QString& book, const QString& words);
    /// Of books among the last ones.
    [[nodiscard]] LeftBook leftBook(const QString& path) const;
    void keep(const QString& path, const LeftBook& left);

    /// Where files of a kind ("import", "export") were chosen last; empty where none were.
    [[nodiscard]] QString folder(const QString& kind) const;
    void keepFolder(const QString& kind, const QString& path);

    [[nodiscard]] ExportChoices exportChoices() const;
    void keep(const ExportChoices& choices);
    /// Panels that he put away, by name.
    [[nodiscard]] QStringList hiddenPanels() const;
    void keepHiddenPanels(const QStringList& names);

    /// The name of the tour's step that he is at, empty before the first, and whether the tour
    /// shows.
    [[nodiscard]] QString tourStep() const;
    void keepTourStep(const QString& name);
    [[nodiscard]] bool tourIsOpen() const;
    void keepTourIsOpen(bool open);

private:
    QSettings store_;
};

} // namespace bedlore
