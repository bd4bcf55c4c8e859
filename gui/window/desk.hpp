// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/bed_builder.hpp"
#include "gui/document/document.hpp"
#include "gui/document/whereabouts.hpp"
#include "gui/jobs/job_board.hpp"
#include "gui/panels/aims_panel.hpp"
#include "gui/panels/find_panel.hpp"
#include "gui/panels/page_panel.hpp"
#include "gui/panels/place_panel.hpp"
#include "gui/panels/shorthand_panel.hpp"
#include "gui/panels/visit_panel.hpp"
#include "gui/plan_view/plan_view.hpp"
#include "gui/section_view/section_view.hpp"
#include "gui/window/settings.hpp"

#include <QWidget>

#include <array>
#include <memory>
#include <optional>

class QSplitter;
class QStackedWidget;

// An open book on the desk: the page on the left, the plan with the side view under it, the chosen
// place on the right.

namespace bedlore {

class ChoiceLine;

class Desk : public QWidget {
    Q_OBJECT

public:
    enum class Panel : std::uint8_t { Page, SideView, ChosenPlace, Aims, Shorthand };

    Desk(std::unique_ptr<Document> document, const Preferences& preferences, QWidget* parent);
    /// Stops what runs. What is typed is kept by `close`, not here.
    ~Desk() override;

    [[nodiscard]] Document& document() { return *document_; }
    [[nodiscard]] JobBoard& jobs() { return jobs_; }
    [[nodiscard]] BedBuilder& builder() { return builder_; }
    [[nodiscard]] PagePanel& page() { return *page_; }
    [[nodiscard]] FindPanel& find() { return *find_; }
    [[nodiscard]] PlanView& plan() { return *plan_; }
    [[nodiscard]] SectionView& sideView() { return *section_; }
    [[nodiscard]] const Whereabouts& whereabouts() const { return where_; }
    [[nodiscard]] QWidget& panel(Panel panel);
    /// One that is brought up to be worked with gets the keys; one that goes gives them back.
    void showPanel(Panel which, bool shown);
    [[nodiscard]] const std::optional<Point>& chosenPlace() const { return place_; }
    [[nodiscard]] const std::vector<AimLine>& aims() const { return aims_; }
    [[nodiscard]] std::optional<std::size_t> chosenAim() const { return aim_; }

    void setPreferences(const Preferences& preferences);
    void restoreLayout(const Settings& settings);
    void keepLayout(Settings& settings);

    void goTo(const Whereabouts& where);
    /// Shows a page, also one that belongs to no visit yet.
    void goToPage(Id<Page> page);
    /// Goes on where he left the book: on that page, else on the page that he has to complete.
    void goOnFrom(std::optional<Id<Page>> left);
    /// The page that is shown; empty for a new page and for a visit that came from a file.
    [[nodiscard]] std::optional<Id<Page>> shownPage() const;
    [[nodiscard]] bool showsNewPage() const;
    /// To what a search found: its page and line, or the visit, swim or water that it belongs to.
    void goToFound(const FoundPlace& place);
    void newPage();
    void undo();
    void redo();
    void chooseAim(std::optional<std::size_t> aim);
    void choosePlace(std::optional<Point> place);
    /// Asks what the word under the page's cursor means.
    void teachWord();

    /// He comes back to the window: what another program did to the book meanwhile is shown.
    void catchUp();
    /// Keeps what is typed and writes what is derived. False, with a sentence, where something
    /// could not be kept; where that is only what is derived, or the file is gone, the second time
    /// is let through. Of much that is derived it shows how far it is, and he may leave without it:
    /// whoever reads it sees that it is of an earlier book.
    [[nodiscard]] bool close();

Q_SIGNALS:
    /// Another water, swim or visit, or other names for them.
    void moved();
    void keptChanged(bool kept);
    /// What is under the pointer, in words; empty when the pointer is elsewhere.
    void readout(const QString& words);
    void said(const QString& sentence);
    void warned(const QString& sentence);
    /// Something that he is to read, however the page goes on.
    void told(const QString& sentence);

private:
    [[nodiscard]] Result<void> writeDerived();
    [[nodiscard]] Result<void> writeDerivedShowing();
    void buildLayout();
    void connectParts();
    void followChange(const Change& change);
    void followPage();
    void followBed();
    void settle(const Whereabouts& wanted);
    [[nodiscard]] std::shared_ptr<const BedPicture> pictureToShow();
    void pointAgain();
    void showPageOf(const Whereabouts& where);
    void showPlace();
    /// A place that is that of a reading goes where the reading is now.
    void followReading();
    void giveRoom(QWidget& listed);
    void showReading(Id<Reading> reading);
    void goToLineOf(Id<Reading> reading);
    void showAimsList();
    void connectPanels();
    void setTabChain();
    void refreshShorthand();
    bool applyTaught(const QString& label, Result<Edits> taught);
    void sayReadout(Point place);
    [[nodiscard]] std::optional<Id<Page>> touchedPage(const Change& change) const;
    [[nodiscard]] std::shared_ptr<const BedMap> map() const { return builder_.map(); }

    std::unique_ptr<Document> document_;
    Preferences preferences_;
    JobBoard jobs_;
    BedBuilder builder_;
    std::shared_ptr<const Book> lastBook_;
    bool warnedAtClose_ = false; ///< since the book last changed

    QSplitter* columns_ = nullptr;
    QSplitter* middle_ = nullptr;
    QSplitter* leftColumn_ = nullptr;
    QStackedWidget* left_ = nullptr;
    PagePanel* page_ = nullptr;
    VisitPanel* visit_ = nullptr;
    FindPanel* find_ = nullptr;
    PlanView* plan_ = nullptr;
    SectionView* section_ = nullptr;
    PlacePanel* placePanel_ = nullptr;
    AimsPanel* aimsPanel_ = nullptr;
    ShorthandPanel* shorthand_ = nullptr;

    Whereabouts where_;
    std::vector<AimLine> aims_;
    std::optional<std::size_t> aim_;
    std::optional<Point> place_;
    std::optional<Id<Reading>> placeOf_; ///< the reading that is there, where it was chosen by one
};

} // namespace bedlore
