// SPDX-License-Identifier: MIT
#include "core/io/import_places.hpp"
#include "core/io/import_session.hpp"
#include "core/io/import_text.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/spool.hpp"
#include "core/reduction/water_level.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <tuple>
#include <unordered_map>
#include <utility>

// Readings into the book: first what belongs to their visits, then row by row their casts.

namespace bedlore {

namespace {

constexpr Length farthestLine = Length::fromSi(400.0);
constexpr double sameDegrees = 1e-9;
constexpr double sameMetres = 1e-6;

/// A cast of the book or of this file. `line` is where the file first says it, 0 for the book.
struct CastWork {
    Cast cast;
    std::optional<North> north = {};
    int line = 0;
    int nextOrder = 1;
    bool changed = false;
};

/// A visit of the book or of this file, and the casts on it.
struct VisitWork {
    Visit visit;
    bool isNew = false;
    bool changed = false;
    bool used = false;
    bool wrapsAssumed = false;
    int nextCast = 1;
    std::string swimName;
    std::optional<Id<Swim>> swim;                     ///< none for a swim not made yet
    std::unordered_map<std::string, CastWork*> named; ///< casts by name
    std::vector<Aim> newAims;
    std::vector<const Aim*> knownAims;
};

struct ReelWork {
    Reel reel;
    bool isNew = false;
    std::optional<Spool> spool;
};

bool sameBearing(const Entered& a, const Entered& b) {
    const double turns = (a.number - b.number) / 360.0;
    return std::abs(turns - std::round(turns)) * 360.0 <= sameDegrees;
}

std::string orNothing(const std::string& text) {
    return text.empty() ? "nothing" : text;
}

class ReadingsPlanner {
public:
    ReadingsPlanner(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file)
        : session_(session)
        , faults_(parsed.faults)
        , rows_(std::get<ReadingRows>(parsed.content).rows)
        , file_(file)
        , positionKnown_(hasPosition(session.water())) {}

    [[nodiscard]] Edits plan() {
        std::vector<VisitWork*> visitOfRow;
        visitOfRow.reserve(rows_.size());
        for (ReadingRow& row : rows_) {
            VisitWork& visit = visitFor(row);
            const bool good = takeVisitValues(row, visit);
            visitOfRow.push_back(good ? &visit : nullptr);
        }
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (visitOfRow[i] != nullptr) {
                takeReading(rows_[i], *visitOfRow[i]);
            }
        }
        return edits();
    }

private:
    void
    bad(const ReadingRow& row,
        std::string_view field,
        std::string_view found,
        std::string expected) {
        faults_.add(row.line, field, found, std::move(expected));
    }

    // ---- visits

    VisitWork& visitFor(const ReadingRow& row) {
        const auto day = std::chrono::sys_days(row.date).time_since_epoch().count();
        const auto key = lowerCase(row.swim) + '\n' + std::to_string(day);
        const auto [at, isNew] = visitByKey_.try_emplace(key, nullptr);
        if (isNew) {
            at->second = &visits_.emplace_back();
            open(*at->second, row);
        }
        return *at->second;
    }

    void open(VisitWork& work, const ReadingRow& row) {
        work.swimName = row.swim;
        const Book& book = session_.book();
        const Swim* swim = findSwim(book, session_.waterId(), row.swim);
        const Visit* visit = swim != nullptr ? findVisit(book, swim->id, row.date) : nullptr;
        if (swim != nullptr) {
            work.swim = swim->id;
        }
        if (visit == nullptr) {
            work.isNew = true;
            work.visit.date = row.date;
            return;
        }
        work.visit = *visit;
        work.knownAims = aimsOf(book, visit->id);
        for (const Cast* cast : castsOf(book, visit->id)) {
            work.nextCast = std::max(work.nextCast, cast->order + 1);
            if (cast->name.empty()) {
                continue;
            }
            CastWork& known = casts_.emplace_back(CastWork{.cast = *cast});
            if (cast->bearing) {
                known.north = cast->bearing->north;
            }
            for (const Reading* reading : readingsOf(book, cast->id)) {
                known.nextOrder = std::max(known.nextOrder, reading->order + 1);
            }
            work.named.emplace(cast->name, &known);
        }
    }

    /// The first value that a visit is given stays; false for a row that says another.
    bool takeVisitValues(const ReadingRow& row, VisitWork& work) {
        bool agrees = true;
        Visit& visit = work.visit;
        if (row.stickGap && visit.sticks && !sameSticks(*row.stickGap, *visit.sticks)) {
            bad(row,
                "stick_gap_ft",
                row.stickGap->text,
                printEntered(*visit.sticks) + ", as this visit has already");
            agrees = false;
        }
        if (row.level && visit.level && !sameLevel(*row.level, *visit.level)) {
            bad(row,
                "level_m",
                row.level->text,
                printEntered(*visit.level) + ", as this visit has already");
            agrees = false;
        }
        if (agrees && row.stickGap && !visit.sticks) {
            visit.sticks = row.stickGap;
            work.changed = true;
        }
        if (agrees && row.level && !visit.level) {
            visit.level = row.level;
            work.changed = true;
        }
        return agrees;
    }

    static bool sameSticks(const Entered& a, const Entered& b) {
        const auto first = fixedLength(a);
        const auto second = fixedLength(b);
        return first && second && std::abs((*first - *second) / metre) <= sameMetres;
    }

    [[nodiscard]] bool sameLevel(const Entered& a, const Entered& b) const {
        const LevelReference& reference = session_.water().levelReference;
        const auto first = measuredLevel(a, reference);
        const auto second = measuredLevel(b, reference);
        return first && second &&
               std::abs((first->level.aboveDatum - second->level.aboveDatum) / metre) <= sameMetres;
    }

    // ---- reels

    ReelWork* reelNamed(const std::string& name) {
        if (name.empty()) {
            return nullptr;
        }
        const auto [at, isNew] = reels_.try_emplace(lowerCase(name));
        if (isNew) {
            if (const Reel* known = findReel(session_.book(), name)) {
                openReel(at->second, *known);
            } else {
                at->second.reel.name = name;
                at->second.isNew = true;
            }
        }
        return &at->second;
    }

    static void openReel(ReelWork& work, const Reel& known) {
        work.reel = known;
        if (auto spool = Spool::of(known)) {
            work.spool = *spool;
        }
    }

    /// The spool that turns are counted on: the cast's own reel, else the one of the visit.
    std::optional<Spool> spoolFor(ReelWork* reel, const VisitWork& work) const {
        if (reel != nullptr) {
            return reel->spool;
        }
        if (work.visit.reel) {
            if (auto spool = Spool::of(session_.book().get(*work.visit.reel))) {
                return *spool;
            }
        }
        return std::nullopt;
    }

    // ---- rows

    void takeReading(ReadingRow& row, VisitWork& work) {
        ReelWork* reel = reelNamed(row.reel);
        const bool lineFits = checkLine(row, work, reel);
        const bool bearingFits = checkBearing(row);
        CastWork* known = castOf(row, work);
        const bool castFits = known == nullptr || agrees(row, *known, reel, work);
        if (!lineFits || !bearingFits || !castFits) {
            return;
        }
        if (reel != nullptr && !reel->reel.id.isValid()) {
            reel->reel.id = session_.ids().take<Reel>();
        }
        CastWork& cast = known != nullptr ? *known : newCast(row, work, reel);
        setAim(row, work, cast);
        work.used = true;
        work.wrapsAssumed =
            work.wrapsAssumed || (row.reading.from.unit == Unit::Wrap && !work.visit.sticks);
        noteNorth(row);
        placed_.push_back({&row, &cast, cast.nextOrder++});
    }

    bool checkLine(const ReadingRow& row, const VisitWork& work, ReelWork* reel) {
        const Entered& from = row.reading.from;
        const std::optional<Spool> spool =
            from.unit == Unit::Turn ? spoolFor(reel, work) : std::nullopt;
        if (from.unit == Unit::Turn && !spool) {
            bad(row, "reel", row.reel, "a reel with measured turns, as distances in turns need");
            return false;
        }
        const auto line = lineOut(from, {.wrap = wrapOf(work.visit), .spool = spool});
        if (!line) {
            bad(row,
                "distance",
                from.text,
                "a length that can be counted: " + line.error().message);
            return false;
        }
        if (line->line > farthestLine) {
            bad(row,
                "distance",
                from.text,
                "at most 400 m of line; this would be " + printLine(line->line));
            return false;
        }
        return true;
    }

    static std::string printLine(Length line) { return printFixed(line / metre, 0) + " m"; }

    bool checkBearing(const ReadingRow& row) {
        if (!row.bearing || row.north != North::Magnetic || positionKnown_) {
            return true;
        }
        bad(row,
            "north",
            northWord(North::Magnetic),
            "true or grid: where " + session_.water().name +
                " lies on the earth is not known, so a compass cannot be put right there");
        return false;
    }

    static CastWork* castOf(const ReadingRow& row, const VisitWork& work) {
        const auto at = row.cast.empty() ? work.named.end() : work.named.find(row.cast);
        return at == work.named.end() ? nullptr : at->second;
    }

    /// Whether a row may continue a cast; notes each field in which it says something else.
    bool
    agrees(const ReadingRow& row, const CastWork& known, ReelWork* reel, const VisitWork& work) {
        const Cast& cast = known.cast;
        const std::string where = known.line > 0 ? ", as on line " + std::to_string(known.line)
                                                 : ", as the cast has in the book";
        bool same = true;
        const bool bearingSame = row.bearing && cast.bearing
                                     ? sameBearing(*row.bearing, cast.bearing->degrees)
                                     : row.bearing.has_value() == cast.bearing.has_value();
        if (!bearingSame) {
            const std::string had = cast.bearing ? cast.bearing->degrees.text : "";
            bad(row, "bearing", row.bearing ? row.bearing->text : "", orNothing(had) + where);
            same = false;
        }
        if (row.north && known.north && row.north != known.north) {
            bad(row, "north", northWord(*row.north), std::string(northWord(*known.north)) + where);
            same = false;
        }
        if (reelId(reel) != cast.reel) {
            bad(row, "reel", row.reel, orNothing(reelName(cast.reel)) + where);
            same = false;
        }
        if (!row.aim.empty() && cast.aim && aimLabel(*cast.aim, work) != row.aim) {
            bad(row, "aim", row.aim, aimLabel(*cast.aim, work) + where);
            same = false;
        }
        return same;
    }

    static std::optional<Id<Reel>> reelId(const ReelWork* reel) {
        return reel != nullptr ? std::optional(reel->reel.id) : std::nullopt;
    }

    std::string reelName(std::optional<Id<Reel>> id) const {
        for (const auto& [name, work] : reels_) {
            if (id && work.reel.id == *id) {
                return work.reel.name;
            }
        }
        const Reel* reel = id ? session_.book().find(*id) : nullptr;
        return reel != nullptr ? reel->name : "";
    }

    CastWork& newCast(const ReadingRow& row, VisitWork& work, const ReelWork* reel) {
        CastWork& made = casts_.emplace_back();
        made.cast.id = session_.ids().take<Cast>();
        made.cast.visit = visitId(work);
        made.cast.order = work.nextCast++;
        made.cast.name = row.cast;
        made.cast.reel = reelId(reel);
        if (row.bearing) {
            made.cast.bearing =
                BearingEntry{.degrees = *row.bearing, .north = row.north.value_or(North::True)};
        }
        made.north = row.north;
        made.line = row.line;
        made.changed = true;
        if (!row.cast.empty()) {
            work.named.emplace(row.cast, &made);
        }
        return made;
    }

    Id<Visit> visitId(VisitWork& work) {
        if (!work.visit.id.isValid()) {
            work.visit.id = session_.ids().take<Visit>();
        }
        return work.visit.id;
    }

    // ---- aims

    static std::string aimLabel(Id<Aim> id, const VisitWork& work) {
        for (const Aim* aim : work.knownAims) {
            if (aim->id == id) {
                return aim->label;
            }
        }
        for (const Aim& aim : work.newAims) {
            if (aim.id == id) {
                return aim.label;
            }
        }
        return {};
    }

    void setAim(const ReadingRow& row, VisitWork& work, CastWork& cast) {
        if (row.aim.empty() || cast.cast.aim) {
            return;
        }
        cast.cast.aim = aimLabelled(row, work);
        cast.changed = true;
    }

    Id<Aim> aimLabelled(const ReadingRow& row, VisitWork& work) {
        int order = 1;
        for (const Aim* aim : work.knownAims) {
            if (aim->label == row.aim) {
                return aim->id;
            }
            order = std::max(order, aim->order + 1);
        }
        for (const Aim& aim : work.newAims) {
            if (aim.label == row.aim) {
                return aim.id;
            }
            order = std::max(order, aim.order + 1);
        }
        Aim aim;
        aim.id = session_.ids().take<Aim>();
        aim.visit = visitId(work);
        aim.order = order;
        aim.label = row.aim;
        if (row.bearing) {
            aim.basis = AimAtBearing{
                .bearing = {.degrees = *row.bearing, .north = row.north.value_or(North::True)}};
        }
        work.newAims.push_back(aim);
        return aim.id;
    }

    // ---- what comes of it

    void noteNorth(const ReadingRow& row) {
        if (row.bearing && row.north == North::True && !positionKnown_) {
            session_.notice(
                "Where " + session_.water().name +
                " lies on the earth is not known: bearings from true north are taken from the "
                "north of its plan.");
        }
    }

    [[nodiscard]] Edits edits() {
        Edits edits;
        for (auto& [name, work] : reels_) {
            if (work.isNew && work.reel.id.isValid()) {
                edits.emplace_back(Put<Reel>{work.reel});
            }
        }
        for (VisitWork& work : visits_) {
            if (work.used) {
                addVisit(work, edits);
            }
        }
        for (const CastWork& work : casts_) {
            if (work.changed) {
                edits.emplace_back(Put<Cast>{work.cast});
            }
        }
        for (const Placed& placed : placed_) {
            Reading reading = std::move(placed.row->reading);
            reading.id = session_.ids().take<Reading>();
            reading.cast = placed.cast->cast.id;
            reading.order = placed.order;
            reading.source = SourceLine{.file = file_, .line = placed.row->line};
            edits.emplace_back(Put<Reading>{std::move(reading)});
        }
        return edits;
    }

    void addVisit(VisitWork& work, Edits& edits) {
        if (work.isNew) {
            work.visit.swim = work.swim ? *work.swim : swimMade(work.swimName, edits);
        }
        if (work.isNew || work.changed) {
            edits.emplace_back(Put<Visit>{work.visit});
        }
        for (const Aim& aim : work.newAims) {
            edits.emplace_back(Put<Aim>{aim});
        }
        if (work.wrapsAssumed) {
            session_.assume(
                "Wraps at swim " + work.swimName + " on " + inWords(work.visit.date) +
                " are taken as 12 ft, because the spacing of the sticks is not given.");
        }
    }

    Id<Swim> swimMade(const std::string& name, Edits& edits) {
        const auto [at, isNew] = swimsMade_.try_emplace(lowerCase(name));
        if (isNew) {
            at->second = session_.ids().take<Swim>();
            Swim swim;
            swim.id = at->second;
            swim.water = session_.waterId();
            swim.name = name;
            edits.emplace_back(Put<Swim>{std::move(swim)});
            session_.notice(
                "Swim " + name + " was not in the book. It has been made, without a place so far.");
        }
        return at->second;
    }

    static std::string inWords(Date date) {
        const auto two = [](unsigned number) {
            return (number < 10 ? "0" : "") + std::to_string(number);
        };
        return std::to_string(static_cast<int>(date.year())) + "-" +
               two(static_cast<unsigned>(date.month())) + "-" +
               two(static_cast<unsigned>(date.day()));
    }

    struct Placed {
        ReadingRow* row;
        CastWork* cast;
        int order;
    };

    ImportSession& session_;
    FaultList& faults_;
    std::vector<ReadingRow>& rows_;
    Id<ImportedFile> file_;
    bool positionKnown_;
    std::deque<VisitWork> visits_; // deques: addresses stay while they grow
    std::deque<CastWork> casts_;
    std::unordered_map<std::string, VisitWork*> visitByKey_;
    std::map<std::string, ReelWork> reels_;
    std::map<std::string, Id<Swim>> swimsMade_;
    std::vector<Placed> placed_;
};

} // namespace

Result<void> planReadings(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file) {
    ReadingsPlanner planner(session, parsed, file);
    return session.apply(planner.plan());
}

} // namespace bedlore
