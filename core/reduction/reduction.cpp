// SPDX-License-Identifier: MIT
#include "core/reduction/reduction.hpp"

#include "core/reduction/fix_soundings.hpp"
#include "core/reduction/ground.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/notes.hpp"
#include "core/reduction/placement.hpp"
#include "core/reduction/visit_reduction.hpp"
#include "core/reduction/water_level.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace bedlore {

namespace {

/// What a cast says, none of it an id or an order of entry: equal content, equal cast.
std::vector<double> contentOf(const CastReduction& cast) {
    std::vector<double> content{cast.cast.aimSigma.si()};
    for (const PlacedReading& reading : cast.readings) {
        content.push_back(reading.line ? reading.line->length.si() : -1.0);
        content.push_back(reading.lineTo ? reading.lineTo->length.si() : -1.0);
        content.push_back(reading.level ? reading.level->aboveDatum.si() : -1e9);
        content.push_back(reading.depthSigma ? reading.depthSigma->si() : -1.0);
        content.push_back(reading.alongSigma.si());
    }
    return content;
}

void sortByContent(std::vector<CastReduction>& casts) {
    std::stable_sort(
        casts.begin(), casts.end(), [](const CastReduction& a, const CastReduction& b) {
            const auto key = [](const CastReduction& c) {
                return std::tie(c.cast.direction, c.cast.name);
            };
            return key(a) != key(b) ? key(a) < key(b) : contentOf(a) < contentOf(b);
        });
}

/// The date whose surface is the zero of levels: that of the water's first visit, where no visit of
/// that day says a level.
std::optional<Date> zeroOfLevels(const std::vector<VisitNotes>& notes, const Water& water) {
    if (notes.empty()) {
        return std::nullopt;
    }
    const Date first = notes.front().visit->date;
    for (const VisitNotes& visit : notes) {
        const auto& level = visit.visit->level;
        if (visit.visit->date == first && level && measuredLevel(*level, water.levelReference)) {
            return std::nullopt;
        }
    }
    return first;
}

class Reducer {
public:
    Reducer(const Book& book, const ReductionScope& scope, const Progress& progress)
        : book_(book)
        , water_(book.get(scope.water))
        , scope_(scope)
        , progress_(progress)
        , notes_(notesOf(book, scope.water))
        , zero_(zeroOfLevels(notes_, water_)) {}

    Result<Reduction> run() {
        result_.water = water_.id;
        Ground ground = groundOf(book_, water_, scope_.alone);
        result_.frame = ground.frame;
        result_.swims = std::move(ground.swims);
        addNotices(std::move(ground.notices));
        for (std::size_t i = 0; i < result_.swims.size(); ++i) {
            swimIndex_[result_.swims[i].swim] = i;
        }
        orderVisits();
        for (std::size_t i = 0; i < visits_.size(); ++i) {
            if (progress_.cancelled()) {
                return fail(cancelledError());
            }
            reduceOne(*visits_[i]);
            progress_.at(0.5 * static_cast<double>(i + 1) / static_cast<double>(visits_.size()));
        }
        if (Result<void> added = addFixSoundings(book_, result_, progress_.part(0.5, 1.0));
            !added) {
            return fail(added.error());
        }
        return std::move(result_);
    }

private:
    void orderVisits() {
        for (const VisitNotes& visit : notes_) {
            if (swimIndex_.contains(visit.visit->swim)) {
                visits_.push_back(&visit);
            }
        }
        const auto key = [&](const VisitNotes* notes) {
            return std::tuple(notes->visit->date, swimIndex_.at(notes->visit->swim));
        };
        std::stable_sort(
            visits_.begin(), visits_.end(), [&](const VisitNotes* a, const VisitNotes* b) {
                return key(a) < key(b);
            });
    }

    /// A sentence that says the same of several visits is said once.
    void addNotices(std::vector<ReductionNotice> notices) {
        for (ReductionNotice& notice : notices) {
            if (notice.refused || said_.insert(notice.sentence).second) {
                result_.notices.push_back(std::move(notice));
            }
        }
    }

    void reduceOne(const VisitNotes& notes) {
        const Visit& visit = *notes.visit;
        const std::size_t swim = swimIndex_.at(visit.swim);
        const VisitSetting setting{
            .book = book_,
            .water = water_,
            .notes = notes,
            .swim = result_.swims[swim],
            .frame = result_.frame,
            .isZeroOfLevels = visit.date == zero_};
        VisitReduction reduced = reduceVisit(setting);
        reduced.visit.swim = swim;
        const std::size_t index = result_.visits.size();
        result_.visits.push_back(reduced.visit);
        addNotices(std::move(reduced.notices));
        sortByContent(reduced.casts);
        for (CastReduction& cast : reduced.casts) {
            addCast(index, std::move(cast));
        }
    }

    void addCast(std::size_t visit, CastReduction cast) {
        const std::size_t index = result_.casts.size();
        cast.cast.visit = visit;
        result_.casts.push_back(std::move(cast.cast));
        for (PlacedReading& reading : cast.readings) {
            reading.cast = index;
            result_.readings.push_back(reading);
        }
        for (Sounding& sounding : cast.soundings) {
            sounding.line->cast = index;
            result_.soundings.push_back(sounding);
        }
    }

    const Book& book_;
    const Water& water_;
    const ReductionScope& scope_;
    const Progress& progress_;
    std::vector<VisitNotes> notes_;
    std::optional<Date> zero_;
    std::map<Id<Swim>, std::size_t> swimIndex_;
    std::vector<const VisitNotes*> visits_;
    std::set<std::string> said_;
    Reduction result_;
};

/// Where a line of a swim lies on a bed.
struct LineOnBed {
    const BedLevelAt& bed;
    const ReducedSwim& swim;
    const ReducedVisit& visit;
    PlaneBearing direction;
};

/// The range at which the line's end meets the bed, from a first guess; the guess where the bed is
/// not known.
GroundDistance settle(const LineOnBed& on, LineOut line, GroundDistance guess) {
    constexpr int mostRounds = 12;
    constexpr Length closeEnough = 5.0 * millimetre;
    Length range = guess.length;
    for (int round = 0; round < mostRounds; ++round) {
        const auto level = on.bed(placeAt(on.swim.tip, on.direction, {range}));
        if (!level) {
            break;
        }
        const Length drop = on.visit.tipHeight + depthAt(*level, on.visit.level).belowSurface;
        const auto next = groundDistance(line, drop);
        if (!next) {
            break;
        }
        const Length move = next->length - range;
        // Half steps once the first few have not settled it: on a bed steeper than the line a full
        // step would jump to and fro.
        range += round < 4 ? move : 0.5 * move;
        if (std::abs(move.si()) < closeEnough.si()) {
            break;
        }
    }
    return {range};
}

/// Whether the bed has a say in where the reading lies.
bool liesOnBed(const PlacedReading& reading) {
    return reading.line && reading.place && reading.range && (!reading.depth || reading.lineTo);
}

} // namespace

Result<Reduction> reduce(const Book& book, const ReductionScope& scope, const Progress& progress) {
    if (book.find(scope.water) == nullptr) {
        return fail(inputError("There is no such water in this book."));
    }
    return Reducer(book, scope, progress).run();
}

void placeByBed(Reduction& reduction, const BedLevelAt& bed) {
    for (PlacedReading& reading : reduction.readings) {
        if (!liesOnBed(reading)) {
            continue;
        }
        const ReducedCast& cast = reduction.casts[reading.cast];
        const ReducedVisit& visit = reduction.visits[cast.visit];
        const LineOnBed on{
            .bed = bed,
            .swim = reduction.swims[visit.swim],
            .visit = visit,
            .direction = cast.direction};
        if (!reading.depth) {
            reading.range = settle(on, *reading.line, *reading.range);
            reading.place = placeAt(on.swim.tip, on.direction, *reading.range);
        }
        if (reading.lineTo) {
            // At its own depth: within a stretch a bar's side can rise by feet.
            const Length guess = std::min(reading.range->length, reading.lineTo->length);
            const GroundDistance nearEnd = settle(on, *reading.lineTo, {guess});
            reading.placeTo = placeAt(on.swim.tip, on.direction, nearEnd);
        }
    }
}

bool hasToBePlacedByBed(const Reduction& reduction) {
    return std::any_of(reduction.readings.begin(), reduction.readings.end(), liesOnBed);
}

WaterLevel latestLevel(const Reduction& reduction) {
    const ReducedVisit* latest = nullptr;
    for (const ReducedVisit& visit : reduction.visits) {
        const bool later = latest == nullptr || visit.date > latest->date ||
                           (visit.date == latest->date && visit.visit > latest->visit);
        if (later) {
            latest = &visit;
        }
    }
    return latest == nullptr ? WaterLevel{} : latest->level;
}

} // namespace bedlore
