// SPDX-License-Identifier: MIT
#include "core/reduction/reduction.hpp"

#include "core/reduction/fix_soundings.hpp"
#include "core/reduction/ground.hpp"
#include "core/reduction/visit_reduction.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace bedlore {

namespace {

/// A cast with what makes its place in the order, none of it an id.
struct OrderedCast {
    ReducedCast cast;
    std::vector<PlacedReading> readings;
    std::vector<Sounding> soundings;
};

std::vector<double> contentOf(const OrderedCast& cast) {
    std::vector<double> content;
    for (const PlacedReading& reading : cast.readings) {
        content.push_back(reading.line ? reading.line->length.si() : -1.0);
        content.push_back(reading.level ? reading.level->aboveDatum.si() : -1e9);
    }
    return content;
}

bool comesBefore(const OrderedCast& a, const OrderedCast& b) {
    const auto key = [](const OrderedCast& c) {
        return std::tuple(c.cast.direction.clockwise().si(), c.cast.name);
    };
    if (key(a) != key(b)) {
        return key(a) < key(b);
    }
    return contentOf(a) < contentOf(b);
}

class Reducer {
public:
    Reducer(const Book& book, const ReductionScope& scope, const Progress& progress)
        : book_(book)
        , water_(book.get(scope.water))
        , scope_(scope)
        , progress_(progress) {}

    Result<Reduction> run() {
        result_.water = water_.id;
        Ground ground = groundOf(book_, water_, scope_.alone);
        result_.frame = ground.frame;
        result_.swims = std::move(ground.swims);
        result_.notices = std::move(ground.notices);
        for (std::size_t i = 0; i < result_.swims.size(); ++i) {
            swimIndex_[result_.swims[i].swim] = i;
        }
        orderVisits();
        for (std::size_t i = 0; i < visits_.size(); ++i) {
            if (progress_.cancelled()) {
                return fail(cancelledError());
            }
            reduceOne(i);
        }
        if (Result<void> added = addFixSoundings(book_, result_, progress_.part(0.5, 1.0));
            !added) {
            return fail(added.error());
        }
        return std::move(result_);
    }

private:
    void orderVisits() {
        for (const Visit* visit : visitsOf(book_, water_.id)) {
            if (swimIndex_.contains(visit->swim)) {
                visits_.push_back(visit);
            }
        }
        std::stable_sort(visits_.begin(), visits_.end(), [&](const Visit* a, const Visit* b) {
            return std::tuple(a->date, result_.swims[swimIndex_[a->swim]].name) <
                   std::tuple(b->date, result_.swims[swimIndex_[b->swim]].name);
        });
        if (!visits_.empty()) {
            earliest_ = visits_.front()->date;
        }
    }

    void reduceOne(std::size_t index) {
        const Visit& visit = *visits_[index];
        const std::size_t swim = swimIndex_.at(visit.swim);
        const VisitSetting setting{
            .book = book_,
            .water = water_,
            .visit = visit,
            .swim = result_.swims[swim],
            .frame = result_.frame,
            .isEarliest = visit.date == earliest_};
        VisitReduction reduced = reduceVisit(setting);
        reduced.visit.swim = swim;
        result_.visits.push_back(reduced.visit);
        std::move(
            reduced.notices.begin(), reduced.notices.end(), std::back_inserter(result_.notices));
        addCasts(index, std::move(reduced.casts));
    }

    void addCasts(std::size_t visit, std::vector<CastReduction> casts) {
        std::vector<OrderedCast> ordered;
        ordered.reserve(casts.size());
        for (CastReduction& cast : casts) {
            ordered.push_back(
                {std::move(cast.cast), std::move(cast.readings), std::move(cast.soundings)});
        }
        std::stable_sort(ordered.begin(), ordered.end(), comesBefore);
        for (OrderedCast& cast : ordered) {
            const std::size_t index = result_.casts.size();
            cast.cast.visit = visit;
            result_.casts.push_back(std::move(cast.cast));
            for (PlacedReading& reading : cast.readings) {
                reading.cast = index;
                result_.readings.push_back(std::move(reading));
            }
            for (Sounding& sounding : cast.soundings) {
                sounding.line->cast = index;
                result_.soundings.push_back(std::move(sounding));
            }
        }
    }

    const Book& book_;
    const Water& water_;
    const ReductionScope& scope_;
    const Progress& progress_;
    std::map<Id<Swim>, std::size_t> swimIndex_;
    std::vector<const Visit*> visits_;
    Date earliest_{};
    Reduction result_;
};

} // namespace

Result<Reduction> reduce(const Book& book, const ReductionScope& scope, const Progress& progress) {
    if (book.find(scope.water) == nullptr) {
        return fail(inputError("There is no such water in this book."));
    }
    return Reducer(book, scope, progress).run();
}

void placeByBed(Reduction& reduction, const BedLevelAt& bed) {
    for (PlacedReading& reading : reduction.readings) {
        if (reading.level || !reading.line || !reading.place) {
            continue;
        }
        const ReducedCast& cast = reduction.casts[reading.cast];
        const ReducedVisit& visit = reduction.visits[cast.visit];
        const ReducedSwim& swim = reduction.swims[visit.swim];
        // The lead lies where the line's circle about the tip meets the bed; a few rounds settle it
        // on any bed less steep than the line.
        for (int round = 0; round < 5; ++round) {
            const auto level = bed(*reading.place);
            if (!level) {
                break;
            }
            const Length drop = visit.tipHeight + depthAt(*level, visit.level).belowSurface;
            if (!placeOnLine(reading, swim.tip, cast.direction, drop)) {
                break;
            }
        }
    }
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
