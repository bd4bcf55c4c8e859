// SPDX-License-Identifier: MIT
#include "core/reduction/visit_reduction.hpp"

#include "core/reduction/depth_reading.hpp"
#include "core/reduction/directions.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/placement.hpp"
#include "core/reduction/rounding.hpp"
#include "core/reduction/uncertainty.hpp"
#include "core/reduction/water_level.hpp"
#include "core/units/format.hpp"
#include "core/units/month_name.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace bedlore {

namespace {

/// A reading on its way: what is known of its line before it has a place.
struct CountedLine {
    LineOut line;
    Length sigma; ///< rounding and the reel's own measure included
};

class VisitReducer {
public:
    explicit VisitReducer(const VisitSetting& setting)
        : s_(setting)
        , visit_(*setting.notes.visit)
        , north_(setting.frame, setting.swim.tip, setting.water.position, visit_.date)
        , rounding_(setting.notes) {}

    VisitReduction run() {
        result_.visit.visit = visit_.id;
        result_.visit.date = visit_.date;
        result_.visit.rangeScaleSigma = usual::rangeScale;
        result_.visit.rangeOffsetSigma = usual::rangeOffset;
        setLevel();
        setTipHeight();
        const VisitDirections directions = castDirections(s_.book, s_.notes, north_, s_.swim.tip);
        setRotation(directions);
        for (const CastNotes& cast : s_.notes.casts) {
            addCast(cast, directions.casts.at(cast.cast->id));
        }
        return std::move(result_);
    }

private:
    [[nodiscard]] std::string where() const { return visitWords(s_.swim.name, visit_.date) + ": "; }

    void say(AnyId about, std::string sentence) {
        for (const ReductionNotice& notice : result_.notices) {
            if (notice.sentence == sentence) {
                return;
            }
        }
        result_.notices.push_back({.about = about, .sentence = std::move(sentence)});
    }
    void refuse(AnyId about, const std::string& sentence) {
        result_.notices.push_back(
            {.about = about, .sentence = where() + sentence, .refused = true});
    }

    void setLevel() {
        ReducedVisit& visit = result_.visit;
        const auto level =
            visit_.level ? measuredLevel(*visit_.level, s_.water.levelReference) : std::nullopt;
        if (level) {
            visit.level = level->level;
            visit.levelSigma = level->sigma;
            visit.levelSaid = true;
            return;
        }
        if (visit_.level) {
            say(AnyId(visit_.id),
                where() + "the level \"" + visit_.level->text +
                    "\" says no height until the height of a step is given with the water.");
        }
        if (!s_.isZeroOfLevels) {
            visit.levelSigma = usual::levelUnsaid;
            say(AnyId(visit_.id),
                where() + "no level, so the water is taken to have stood at zero, give or take a "
                          "foot for the whole visit.");
        }
    }

    void setTipHeight() {
        const Swim& swim = s_.book.get(visit_.swim);
        const auto heightOf = [](const std::optional<Entered>& entered) {
            const auto height = entered ? fixedLength(*entered) : std::nullopt;
            return height && std::isfinite(height->si()) ? height : std::nullopt;
        };
        const auto own = heightOf(visit_.tipHeight);
        const auto height = own ? own : heightOf(swim.tipHeight);
        result_.visit.tipHeight = height.value_or(usual::tipHeight);
        if (!height) {
            say(AnyId(swim.id),
                s_.swim.name +
                    ": the height of the rod tip is not said; 6 ft above the water is assumed.");
        }
    }

    void setRotation(const VisitDirections& directions) {
        for (const DirectionFault& fault : directions.faults) {
            const AnyId about = std::visit([](auto id) { return AnyId(id); }, fault.about);
            refuse(about, fault.sentence + " The direction is guessed.");
        }
        Angle sigma = rotationSigma(visit_);
        const auto& declination = north_.declination();
        if (directions.usesCompass && declination) {
            sigma = std::hypot(sigma.si(), declination->sigma.si()) * radian;
            if (declination->outsideModels) {
                say(AnyId(visit_.id),
                    where() + "the compass is corrected by the nearest year that is known, so "
                              "its bearings are less sure.");
            }
        }
        if (directions.usesTrueNorth && !s_.frame.hasOrigin()) {
            say(AnyId(s_.water.id),
                s_.water.name + ": without a latitude and longitude, true north is taken as "
                                "straight up the map.");
        }
        result_.visit.rotationSigma = sigma;
    }

    LineRules rulesFor(const Cast& cast) {
        LineRules rules{.wrap = wrapOf(visit_), .spool = {}};
        const std::optional<Id<Reel>> reel = cast.reel ? cast.reel : visit_.reel;
        if (!reel) {
            return rules;
        }
        const auto fitted = spools_.find(*reel);
        if (fitted != spools_.end()) {
            rules.spool = fitted->second;
        } else {
            const auto spool = Spool::of(s_.book.get(*reel));
            rules.spool = spool ? std::optional(*spool) : std::nullopt;
            spools_[*reel] = rules.spool;
        }
        return rules;
    }

    [[nodiscard]] std::string nameOf(const Cast& cast) const {
        std::string name = cast.aim ? s_.book.get(*cast.aim).label : std::string();
        if (!cast.name.empty()) {
            name += (name.empty() ? "" : " ") + cast.name;
        }
        return name.empty() ? std::to_string(cast.order) : name;
    }

    void addCast(const CastNotes& notes, const CastDirection& direction) {
        const Cast& cast = *notes.cast;
        CastReduction reduced;
        reduced.cast = {
            .cast = cast.id,
            .visit = 0,
            .name = nameOf(cast),
            .direction = direction.bearing,
            .aimSigma = direction.sigma,
            .directionGuessed = direction.guessed};
        const LineRules rules = rulesFor(cast);
        std::optional<CountedLine> last;
        for (const Reading* reading : notes.readings) {
            reduced.readings.emplace_back().reading = reading->id;
            last = addReading(*reading, rules, last, reduced);
        }
        placeWithoutDepth(reduced);
        result_.casts.push_back(std::move(reduced));
    }

    /// Fills the last of the cast's readings; gives where the lead then was, for a reading that
    /// counts from there.
    std::optional<CountedLine> addReading(
        const Reading& reading,
        const LineRules& rules,
        const std::optional<CountedLine>& last,
        CastReduction& cast) {
        PlacedReading& placed = cast.readings.back();
        const auto counted = lineOf(reading, rules, last);
        if (!counted) {
            refuse(AnyId(reading.id), counted.error().message);
            return last;
        }
        placed.line = counted->line;
        placed.alongSigma = counted->sigma; // of the line alone until there is a place
        CountedLine reached = *counted;
        if (reading.to) {
            if (const auto to = lineOut(*reading.to, rules)) {
                placed.lineTo = LineOut{to->line};
                reached.line = *placed.lineTo;
            } else {
                refuse(AnyId(reading.id), to.error().message);
            }
        }
        if (reading.depth && reachedTheBed(reading)) {
            addDepth(reading, *counted, cast);
        }
        return reached;
    }

    Result<CountedLine>
    lineOf(const Reading& reading, const LineRules& rules, const std::optional<CountedLine>& last) {
        if (reading.from.unit == Unit::Wrap && !visit_.sticks) {
            say(AnyId(visit_.id),
                where() + "the spacing of the sticks is not said; 12 ft is assumed.");
        }
        const bool nearer = reading.mode == DistanceMode::NearerThanLast;
        if (nearer && !last) {
            return fail(inputError(
                "\"" + reading.from.text +
                "\" counts from the place before it on the cast, and there is none."));
        }
        const auto line =
            nearer ? lineNearer(reading.from, last->line, rules) : lineOut(reading.from, rules);
        if (!line) {
            return fail(line.error());
        }
        const Length one = unitLengthAt(reading.from.unit, rules, line->line);
        const double rounding = rounding_.lineSigma(reading.from.unit, one).si();
        double sigma = std::hypot(countSigma(reading).si(), rounding, line->sigma.si());
        if (nearer) { // wrong by whatever the place before was wrong by, too
            sigma = std::hypot(sigma, last->sigma.si());
        }
        return CountedLine{.line = LineOut{line->line}, .sigma = sigma * metre};
    }

    /// How long one of the unit is at this length of line.
    static Length unitLengthAt(Unit unit, const LineRules& rules, Length line) {
        if (unit == Unit::Wrap) {
            return rules.wrap;
        }
        if (unit == Unit::Turn && rules.spool) {
            return rules.spool->perTurnAt(line);
        }
        return fixedLength(Entered{1.0, unit, {}}).value_or(yard);
    }

    void addDepth(const Reading& reading, const CountedLine& counted, CastReduction& cast) {
        PlacedReading& placed = cast.readings.back();
        const auto measured = measuredDepth(reading, visit_);
        if (!measured) {
            refuse(AnyId(reading.id), measured.error().message);
            return;
        }
        const Length drop = result_.visit.tipHeight + measured->depth.belowSurface;
        placed.depth = measured->depth;
        const auto range = groundDistance(counted.line, drop);
        if (!range) {
            refuseShortLine(reading, measured->depth.belowSurface);
            return;
        }
        const Unit unit = reading.depth->value.unit;
        const Length rounding =
            reading.depth->to ? Length{} : rounding_.depthSigma(unit, depthUnit(unit, visit_));
        placed.depthSigma = std::hypot(measured->sigma.si(), rounding.si()) * metre;
        placed.level = bedLevel(measured->depth, result_.visit.level);
        place(placed, cast.cast, counted.sigma, drop);
        cast.soundings.push_back(
            {.source = reading.id,
             .place = *placed.place,
             .level = *placed.level,
             .levelSigma = *placed.depthSigma,
             .line =
                 LineGeometry{
                     .cast = 0,
                     .line = counted.line,
                     .drop = drop,
                     .range = *range,
                     .lineSigma = counted.sigma},
             .placeSigma = {}});
    }

    void refuseShortLine(const Reading& reading, Length depth) {
        const Unit depthUnit = reading.depth->value.unit;
        const bool metric = depthUnit == Unit::Metre || depthUnit == Unit::Centimetre;
        const Unit unit = metric ? Unit::Metre : Unit::Foot;
        refuse(
            AnyId(reading.id),
            "a line of " + printEntered(reading.from) + " cannot reach a bed " +
                printLength(depth, unit) + " deep from a rod tip " +
                printLength(result_.visit.tipHeight, unit) +
                " above the water. It is kept on the page and left out of the map.");
    }

    /// Gives `placed` its place and errors. False, and nothing done, when its line is too short.
    bool
    place(PlacedReading& placed, const ReducedCast& cast, Length lineSigma, Length drop) const {
        if (!placeOnLine(placed, s_.swim.tip, cast.direction, drop)) {
            return false;
        }
        const ReducedVisit& visit = result_.visit;
        const double scale = visit.rangeScaleSigma * placed.line->length.si();
        const double line = std::hypot(lineSigma.si(), scale, visit.rangeOffsetSigma.si());
        const double direction = std::hypot(cast.aimSigma.si(), visit.rotationSigma.si());
        const PlaceErrors errors = placeErrors(
            {.line = *placed.line,
             .drop = drop,
             .lineSigma = line * metre,
             .dropSigma = placed.depthSigma.value_or(Length{}),
             .directionSigma = direction * radian});
        const double swim = s_.swim.placeSigma.si();
        placed.alongSigma = std::hypot(errors.along.si(), swim) * metre;
        placed.acrossSigma = std::hypot(errors.across.si(), swim) * metre;
        return true;
    }

    /// Readings without a depth lie, until the bed is known, as deep as the nearest depth on their
    /// own cast. A depth without a level is one that its line cannot reach: that has no place.
    void placeWithoutDepth(CastReduction& cast) const {
        for (PlacedReading& placed : cast.readings) {
            if (!placed.line || placed.depth) {
                continue;
            }
            Length drop = result_.visit.tipHeight;
            double nearest = std::numeric_limits<double>::infinity();
            for (const Sounding& sounding : cast.soundings) {
                const Length apart = sounding.line->line.length - placed.line->length;
                if (std::abs(apart.si()) < nearest) {
                    nearest = std::abs(apart.si());
                    drop = sounding.line->drop;
                }
            }
            const Length lineSigma = placed.alongSigma;
            if (!place(placed, cast.cast, lineSigma, drop)) {
                place(placed, cast.cast, lineSigma, Length{});
            }
        }
    }

    const VisitSetting& s_;
    const Visit& visit_;
    NorthAt north_;
    VisitRounding rounding_;
    std::map<Id<Reel>, std::optional<Spool>> spools_;
    VisitReduction result_;
};

} // namespace

std::string visitWords(const std::string& swim, Date date) {
    if (!date.ok()) {
        return swim + ", no date";
    }
    return swim + ", " + std::to_string(static_cast<unsigned>(date.day())) + " " +
           std::string(monthName(date.month())) + " " +
           std::to_string(static_cast<int>(date.year()));
}

VisitReduction reduceVisit(const VisitSetting& setting) {
    return VisitReducer(setting).run();
}

} // namespace bedlore
