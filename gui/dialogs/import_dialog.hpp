// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"
#include "gui/paint/theme.hpp"

#include <QDialog>
#include <QString>
#include <QStringList>

#include <vector>

class QCheckBox;
class QLabel;
class QListWidget;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;
class QTableView;

// Files looked at before anything of them is in the book.

namespace bedlore {

class BadRowsModel;
class PreviewModel;

/// Rows of each file that are shown. Bad rows are all shown.
inline constexpr std::size_t shownImportRows = 500;

/// Begins by showing that the files are read; then what they would become, or why they cannot be
/// taken in. It says when he wants them, shows how far they are written, and is accepted when they
/// are in the book. Rejected: nothing is taken in.
class ImportDialog : public QDialog {
    Q_OBJECT

public:
    struct Start {
        QStringList files; ///< names without their folders
        QString water;     ///< that they go to
        PaletteKind colours = PaletteKind::Light;
    };

    explicit ImportDialog(const Start& start, QWidget* parent = nullptr);

    void showProgress(double share);
    void showPlan(const ImportPlan& plan);
    void showFailure(const QString& sentence);
    /// What was shown is being written, until `endWriting`.
    void showWriting();
    void endWriting(bool isTakenIn);

public Q_SLOTS:
    /// While it is written it asks to be stopped, and stays until that is so.
    void reject() override;

Q_SIGNALS:
    void takeInWanted();
    void stopWanted();

private:
    void buildReading(const Start& start);
    void buildPreview();
    void buildButtons();
    void showFiles(const ImportPlan& plan);
    void showFile(int index);
    void showBadRows(const ImportPlan& plan);
    void showAgain(const ImportPlan& plan);
    void offer(const ImportPlan& plan);
    void refreshButtons();

    std::vector<FilePreview> files_;
    bool needsAgain_ = false;
    bool isWriting_ = false;
    QLabel* headline_ = nullptr;
    QProgressBar* progress_ = nullptr;
    QWidget* preview_ = nullptr;
    QListWidget* list_ = nullptr;
    QLabel* fileWords_ = nullptr;
    QTableView* rows_ = nullptr;
    PreviewModel* rowsModel_ = nullptr;
    QLabel* badWords_ = nullptr;
    QTableView* bad_ = nullptr;
    BadRowsModel* badModel_ = nullptr;
    QLabel* noticesWords_ = nullptr;
    QPlainTextEdit* notices_ = nullptr;
    QLabel* againWords_ = nullptr;
    QCheckBox* again_ = nullptr;
    QLabel* summary_ = nullptr;
    QPushButton* takeIn_ = nullptr;
    QPushButton* cancel_ = nullptr;
};

/// "2 swims, 12 casts, 212 readings"; "nothing new" where there is nothing.
[[nodiscard]] QString importCountWords(const ImportCounts& counts);

} // namespace bedlore
