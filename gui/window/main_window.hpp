// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/import.hpp"
#include "gui/document/map_export.hpp"
#include "gui/window/desk.hpp"
#include "gui/window/dropped_files.hpp"
#include "gui/window/settings.hpp"

#include <QMainWindow>

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

class QAction;
class QLabel;
class QStackedWidget;

// The frame around the desk: menus, the sentence that says where we are, messages, the foot.

namespace bedlore {

class ChoiceLine;
class FootLine;
class HelpWindow;
class ImportDialog;
class MessageBar;
class TourGuide;

/// `practice` is where his copy of the practice water lies, `settings` a file to keep preferences
/// in: the usual place where they are empty.
struct WindowOptions {
    std::filesystem::path book;
    std::filesystem::path practice;
    std::filesystem::path settings;
};

class MainWindow : public QMainWindow {
    Q_OBJECT

public:
    explicit MainWindow(const WindowOptions& options = {});
    ~MainWindow() override;

    /// Null while no book is open.
    [[nodiscard]] Desk* desk() { return desk_; }
    [[nodiscard]] Settings& settings() { return settings_; }
    [[nodiscard]] TourGuide& guide() { return *guide_; }
    [[nodiscard]] QAction* action(const QString& name) const;

    /// Opens a book in place of the one on the desk, which is kept first. False, with a sentence in
    /// the message bar, where that cannot be done.
    bool openBook(const std::filesystem::path& path);
    bool newBook(const std::filesystem::path& path);
    bool closeBook();
    /// Opens the book on the desk anew, at the same page: to write in one that could only be read.
    void openAgain();
    /// Writes a copy under a name that is free. Where what is typed cannot be kept in the book any
    /// more, the copy takes its place on the desk and keeps it.
    void saveCopy(const std::filesystem::path& target);
    /// Writes the whole book as a folder of tables, which must not be there or be empty; what is
    /// private stays at home unless it is to go along.
    void saveTables(
        const std::filesystem::path& folder, PrivateThings privateThings = PrivateThings::LeaveOut);
    /// Reads files and shows what they would become; taken in, they are one act that can be undone.
    void importFiles(const std::vector<std::filesystem::path>& files);
    void writeMap(const MapShare& share, const MapFiles& files);

    /// What the actions do; see the table in actions.cpp.
    void askNewBook();
    void askOpenBook();
    void openPractice();
    void askSaveCopy();
    void askSaveTables();
    void askImport();
    void askExport();
    void askPrint();
    /// Stops what was asked for by hand: reading files, writing maps.
    void stopWork();
    void undo();
    void redo();
    void newPage();
    void answerFirst();
    void nextQuestion();
    /// Only while the page has the focus: nothing is changed out of sight.
    void editLines(void (*edit)(PageEditor&));
    void findInBook();
    void showKeys();
    void choosePalette(PaletteKind kind);
    void setTextScale(double scale);
    /// Larger or smaller by so many steps, as far as there are any.
    void stepText(int steps);
    void showLayer(bool MapLayers::*layer, bool shown);
    void setDepthUnit(Unit unit);
    void setDistanceUnit(Unit unit);
    void setNorthUp(bool northUp);
    void showAll();
    void zoomIn();
    void zoomOut();
    void showPanel(Desk::Panel panel, bool shown);
    void showAllPanels();
    void goToPage();
    void goToPlan();
    void goToSideView();
    void showHelp();
    void goToPlace();
    /// Asks what the word under the page's cursor means.
    void teachWord();
    /// Asks where the swim lies and how high the rod tip is there.
    void askSwimPlace();
    /// Asks what the water's level is read from.
    void askLevelMark();
    /// Asks which spots and marks leave only where he says so each time.
    void askPrivateThings();
    void stepAim(int by);
    /// To the page before or after of those that the head of the window offers.
    void stepPage(int by);

    [[nodiscard]] const Preferences& preferences() const { return preferences_; }

protected:
    bool event(QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dragLeaveEvent(QDragLeaveEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    /// Return presses the button that has the focus, as the space bar does.
    void keyPressEvent(QKeyEvent* event) override;

private:
    void buildFrame();
    bool takeUp(Result<std::unique_ptr<Document>> document);
    void putOnDesk(Result<std::unique_ptr<Document>> document);
    [[nodiscard]] static QString openingWords(const Document& document);
    void connectDesk();
    void showStart();
    void applyPreferences();
    void refreshActions();
    void refreshWhere();
    void rememberWaters();
    [[nodiscard]] QString bookPath() const;
    void refreshTitle();
    [[nodiscard]] bool leaveDesk();
    void dropDesk();
    void keepLeftBook();
    using AskWithMap = std::function<void(const std::shared_ptr<const BedMap>&)>;
    /// Keeps what is typed, then asks with a map of it: at once, or when it has been drawn. Never
    /// where it cannot be kept.
    void withMapToLeave(const AskWithMap& ask);
    void showExport(const std::shared_ptr<const BedMap>& map);
    void showPrint(const std::shared_ptr<const BedMap>& map);
    void planImportFor(ImportDialog& dialog, const std::vector<std::filesystem::path>& files);
    using SharedPlan = std::shared_ptr<const Result<ImportPlan>>;
    void takeIn(const std::shared_ptr<const Book>& before, const SharedPlan& plan, ImportDialog&);
    /// Kinds of work that is asked for by hand.
    [[nodiscard]] static QString importJob() { return QStringLiteral("import"); }
    [[nodiscard]] static QString takeInJob() { return QStringLiteral("take in"); }
    [[nodiscard]] static QString exportJob() { return QStringLiteral("export"); }
    [[nodiscard]] static QString tablesJob() { return QStringLiteral("tables"); }
    void refreshRecent();
    void refreshWork();
    [[nodiscard]] DropDesk deskForDrops() const;
    /// Where to look for files of a kind first.
    [[nodiscard]] QString usualFolder(const QString& kind) const;

    WindowOptions options_;
    Settings settings_;
    Preferences preferences_;
    std::optional<QString> rememberedWaters_; ///< of the book on the desk
    ChoiceLine* where_ = nullptr;
    QWidget* header_ = nullptr;
    MessageBar* messages_ = nullptr;
    TourGuide* guide_ = nullptr;
    QMetaObject::Connection waitsForMap_;
    QMetaObject::Connection waitsNoMore_;
    FootLine* foot_ = nullptr;
    QStackedWidget* body_ = nullptr;
    QLabel* dropHint_ = nullptr;
    Desk* desk_ = nullptr;
    HelpWindow* help_ = nullptr; ///< made when it is first asked for
};

} // namespace bedlore
