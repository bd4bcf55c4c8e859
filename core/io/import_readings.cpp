// SPDX-License-Identifier: MIT
#include "core/io/import_places.hpp"
#include "core/io/import_session.hpp"
#include "core/io/import_text.hpp"
#include "core/io/import_visits.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/spool.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

// Readings into the book: first what belongs to their visits, then row by row their casts.

namespace bedlore {

namespace {

constexpr double sameDegrees = 1e-9;

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
        , visits_(session.book(), session.water(), parsed.faults)
        , positionKnown_(hasPosition(session.water())) {}

    [[nodiscard]] Edits plan() {
        std::vector<VisitWork*> visitOfRow;
        visitOfRow.reserve(rows_.size());
        for (ReadingRow& row : rows_) {
            VisitWork& visit = visits_.visitFor(row);
            const bool good = visits_.takeValues(row, visit);
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
        const bool castFits = known == nullptr || agrees(row, *known, reel);
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
        placed_.push_back({&row, &cast, cast.nextReading++});
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
            std::string why = line.error().message;
            why.resize(why.find_last_not_of('.') + 1); // the row's own sentence has one
            bad(row,
                "distance",
                from.text,
                from.unit == Unit::Turn ? "turns that the reel has: " + why
                                        : "at most 400 m of line");
            return false;
        }
        return true;
    }

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
    bool agrees(const ReadingRow& row, const CastWork& known, const ReelWork* reel) {
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
        if (!row.aim.empty() && !known.aim.empty() && known.aim != row.aim) {
            bad(row, "aim", row.aim, known.aim + where);
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
        CastWork& made = visits_.addCast();
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

    void setAim(const ReadingRow& row, VisitWork& work, CastWork& cast) {
        if (row.aim.empty() || cast.cast.aim) {
            return;
        }
        cast.cast.aim = aimLabelled(row, work);
        cast.aim = row.aim;
        cast.changed = true;
    }

    Id<Aim> aimLabelled(const ReadingRow& row, VisitWork& work) {
        const auto known = work.aims.find(row.aim);
        if (known != work.aims.end()) {
            return known->second;
        }
        Aim aim;
        aim.id = session_.ids().take<Aim>();
        aim.visit = visitId(work);
        aim.order = work.nextAim++;
        aim.label = row.aim;
        if (row.bearing) {
            aim.basis = AimAtBearing{
                .bearing = {.degrees = *row.bearing, .north = row.north.value_or(North::True)}};
        }
        work.aims.emplace(row.aim, aim.id);
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
        for (VisitWork& work : visits_.visits()) {
            if (work.used) {
                addVisit(work, edits);
            }
        }
        for (const CastWork& work : visits_.casts()) {
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
                "Wraps at swim " + work.swimName + " on " + isoDate(work.visit.date) +
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

    struct Placed {
        ReadingRow* row;
        CastWork* cast;
        int order;
    };

    ImportSession& session_;
    FaultList& faults_;
    std::vector<ReadingRow>& rows_;
    Id<ImportedFile> file_;
    VisitList visits_;
    bool positionKnown_;
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
