// SPDX-License-Identifier: MIT
#include "core/reduction/visit_reduction.hpp"

#include "core/reduction/depth_reading.hpp"
#include "core/reduction/directions.hpp"
#include "core/reduction/line_out.hpp"
#include "core/reduction/uncertainty.hpp"
#include "core/reduction/water_level.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace bedlore {

namespace {

Point along(Point tip, PlaneBearing direction, double metres) {
    const double angle = direction.clockwise().si();
    return {tip.east + metres * std::sin(angle), tip.north + metres * std::cos(angle)};
}

std::string dateWords(Date date) {
    static constexpr const char* months[] = {
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December"};
    const unsigned month = static_cast<unsigned>(date.month());
    return std::to_string(static_cast<unsigned>(date.day())) + " " +
           (date.ok() ? months[month - 1] : "?") + " " +
           std::to_string(static_cast<int>(date.year()));
}

class VisitReducer {
public:
    explicit VisitReducer(const VisitSetting& setting)
        : s_(setting) {}

    VisitReduction run() {
        setVisit();
        collectSteps();
        VisitDirections directions = castDirections(s_.book, s_.visit, s_.frame, s_.swim.tip);
        for (std::string& sentence : directions.notices) {
            say(AnyId(s_.visit.id), where() + std::move(sentence));
        }
        for (const Cast* cast : castsOf(s_.book, s_.visit.id)) {
            addCast(*cast, directions.casts.at(cast->id));
        }
        return std::move(result_);
    }

private:
    std::string where() const { return s_.swim.name + ", " + dateWords(s_.visit.date) + ": "; }

    void say(AnyId about, std::string sentence, bool refused = false) {
        for (const ReductionNotice& notice : result_.notices) {
            if (notice.sentence == sentence) {
                return;
            }
        }
        result_.notices.push_back(
            {.about = about, .sentence = std::move(sentence), .refused = refused});
    }

    void setVisit() {
        ReducedVisit& visit = result_.visit;
        visit.visit = s_.visit.id;
        visit.date = s_.visit.date;
        visit.rotationSigma = rotationSigma(s_.visit);
        visit.rangeScaleSigma = usual::rangeScale;
        visit.rangeOffsetSigma = usual::rangeOffset;
        setLevel();
        setTipHeight();
    }

    void setLevel() {
        ReducedVisit& visit = result_.visit;
        const bool said = s_.visit.level.has_value();
        if (said) {
            if (const auto level = measuredLevel(*s_.visit.level, s_.water.levelReference)) {
                visit.level = level->level;
                visit.levelSigma = level->sigma;
                visit.levelSaid = true;
                return;
            }
            say(AnyId(s_.visit.id),
                where() + "the level \"" + s_.visit.level->text +
                    "\" cannot be told in metres until the height of a step is given.");
        }
        if (!s_.isEarliest || said) {
            visit.levelSigma = usual::levelUnsaid;
            say(AnyId(s_.visit.id),
                where() + "no level, so the water is taken to stand at the zero of levels, give or "
                          "take a foot for the whole visit.");
        }
    }

    void setTipHeight() {
        std::optional<Entered> entered = s_.visit.tipHeight;
        if (!entered) {
            entered = s_.book.get(s_.visit.swim).tipHeight;
        }
        const auto height = entered ? fixedLength(*entered) : std::nullopt;
        result_.visit.tipHeight = height.value_or(usual::tipHeight);
        if (!height) {
            say(AnyId(s_.visit.swim),
                s_.swim.name +
                    ": the height of the rod tip is not said; 6 ft above the water is assumed.");
        }
    }

    /// The rounding of each unit used on this visit, for lengths and for depths.
    void collectSteps() {
        std::map<Unit, std::vector<double>> lines;
        std::map<Unit, std::vector<double>> depths;
        for (const Cast* cast : castsOf(s_.book, s_.visit.id)) {
            for (const Reading* reading : readingsOf(s_.book, cast->id)) {
                lines[reading->from.unit].push_back(reading->from.number);
                if (reading->depth) {
                    depths[reading->depth->value.unit].push_back(reading->depth->value.number);
                }
            }
        }
        for (const auto& [unit, numbers] : lines) {
            lineSteps_[unit] = roundingStep(numbers, usualSteps(unit));
        }
        for (const auto& [unit, numbers] : depths) {
            depthSteps_[unit] = roundingStep(numbers, usualSteps(unit));
        }
    }

    LineRules rulesFor(const Cast& cast) {
        LineRules rules{.wrap = wrapOf(s_.visit), .spool = {}};
        const std::optional<Id<Reel>> reel = cast.reel ? cast.reel : s_.visit.reel;
        if (reel) {
            if (auto spool = Spool::of(s_.book.get(*reel))) {
                rules.spool = *spool;
            }
        }
        return rules;
    }

    void addCast(const Cast& cast, const CastDirection& direction) {
        CastReduction reduced;
        reduced.cast = {
            .cast = cast.id,
            .visit = 0,
            .name = nameOf(cast),
            .direction = direction.bearing,
            .aimSigma = direction.sigma,
            .directionGuessed = direction.guessed};
        const LineRules rules = rulesFor(cast);
        std::optional<LineOut> last;
        for (const Reading* reading : readingsOf(s_.book, cast.id)) {
            addReading(*reading, rules, last, reduced);
        }
        placeWithoutDepth(reduced);
        result_.casts.push_back(std::move(reduced));
    }

    std::string nameOf(const Cast& cast) const {
        std::string name = cast.aim ? s_.book.get(*cast.aim).label : std::string();
        if (!cast.name.empty()) {
            name += (name.empty() ? "" : " ") + cast.name;
        }
        return name;
    }

    Result<MeasuredLine>
    lineOf(const Reading& reading, const LineRules& rules, const std::optional<LineOut>& last) {
        if (reading.from.unit == Unit::Wrap && !s_.visit.sticks) {
            say(AnyId(s_.visit.id),
                where() + "the spacing of the sticks is not said; 12 ft is assumed.");
        }
        if (reading.mode == DistanceMode::StillOut) {
            return lineOut(reading.from, rules);
        }
        if (!last) {
            return fail(inputError(
                "\"" + reading.from.text +
                "\" counts from the place before it, and there is none."));
        }
        return lineNearer(reading.from, *last, rules);
    }

    double roundingSigma(const std::map<Unit, double>& steps, Unit unit, Length unitLength) const {
        const auto step = steps.find(unit);
        return step == steps.end() ? 0.0 : step->second * unitLength.si() / std::sqrt(12.0);
    }

    /// How long one of the unit is at this length of line.
    Length unitLengthAt(Unit unit, const LineRules& rules, Length line) const {
        if (unit == Unit::Wrap) {
            return rules.wrap;
        }
        if (unit == Unit::Turn && rules.spool) {
            const auto turns = rules.spool->turnsFor(line);
            return turns ? (rules.spool->a() - 2.0 * rules.spool->b() * *turns) * metre : yard;
        }
        return fixedLength(Entered{1.0, unit, {}}).value_or(yard);
    }

    void addReading(
        const Reading& reading,
        const LineRules& rules,
        std::optional<LineOut>& last,
        CastReduction& cast) {
        PlacedReading placed;
        placed.reading = reading.id;
        const auto line = lineOf(reading, rules, last);
        if (!line) {
            say(AnyId(reading.id), where() + line.error().message, true);
            cast.readings.push_back(placed);
            return;
        }
        last = LineOut{line->line};
        placed.line = last;
        if (reading.to) {
            if (const auto to = lineOut(*reading.to, rules)) {
                placed.lineTo = LineOut{to->line};
                last = placed.lineTo;
            } else {
                say(AnyId(reading.id), where() + to.error().message, true);
            }
        }
        const Length lineSigma = lineSigmaOf(reading, rules, *line);
        placed.alongSigma = lineSigma; // until the depth and the shared errors are added
        if (reading.depth && !reading.outcome) {
            addDepth(reading, lineSigma, placed, cast);
        }
        cast.readings.push_back(placed);
    }

    Length
    lineSigmaOf(const Reading& reading, const LineRules& rules, const MeasuredLine& line) const {
        const Length one = unitLengthAt(reading.from.unit, rules, line.line);
        double own = usual::line.si();
        own *= reading.about ? 2.0 : 1.0;
        const double rounding = roundingSigma(lineSteps_, reading.from.unit, one);
        return std::hypot(own, rounding, line.sigma.si()) * metre;
    }

    void
    addDepth(const Reading& reading, Length lineSigma, PlacedReading& placed, CastReduction& cast) {
        const auto measured = measuredDepth(reading, s_.visit);
        if (!measured) {
            say(AnyId(reading.id), where() + measured.error().message, true);
            return;
        }
        const Length drop = result_.visit.tipHeight + measured->depth.belowSurface;
        const auto range = groundDistance(*placed.line, drop);
        if (!range) {
            say(AnyId(reading.id),
                where() + "a line of " + printEntered(reading.from) + " is shorter than the " +
                    printLength(drop, Unit::Foot) +
                    " from the rod tip down to the bed. It is kept on the page and left out of the "
                    "map.",
                true);
            return;
        }
        const Unit unit = reading.depth->value.unit;
        const double rounding =
            reading.depth->to ? 0.0 : roundingSigma(depthSteps_, unit, depthUnit(unit, s_.visit));
        const double agreeing = std::sqrt(static_cast<double>(std::max(reading.agreeing, 1)));
        const double levelSigma = std::hypot(measured->sigma.si(), rounding) / agreeing;
        placed.depth = measured->depth;
        placed.level = bedLevel(measured->depth, result_.visit.level);
        placed.depthSigma = levelSigma * metre;
        placeOnLine(placed, s_.swim.tip, cast.cast.direction, drop);
        cast.soundings.push_back(
            {.source = reading.id,
             .place = *placed.place,
             .level = *placed.level,
             .levelSigma = *placed.depthSigma,
             .line =
                 LineGeometry{
                     .cast = 0,
                     .line = *placed.line,
                     .drop = drop,
                     .range = *range,
                     .lineSigma = lineSigma / agreeing},
             .placeSigma = {}});
        setPlaceSigmas(placed, cast.cast, lineSigma, drop);
    }

    void setPlaceSigmas(
        PlacedReading& placed, const ReducedCast& cast, Length lineSigma, Length drop) const {
        // R = sqrt(L² − D²): dR/dL = L/R, dR/dD = −D/R.
        const double l = placed.line->length.si();
        const double r = std::max(placed.range->length.si(), 0.1);
        const ReducedVisit& visit = result_.visit;
        const double lineError =
            std::hypot(lineSigma.si(), visit.rangeScaleSigma * l, visit.rangeOffsetSigma.si());
        const double depthError = placed.depthSigma.value_or(Length{}).si() * drop.si() / r;
        const double aim = std::hypot(cast.aimSigma.si(), visit.rotationSigma.si());
        const double swim = s_.swim.placeSigma.si();
        placed.alongSigma = std::hypot(l / r * lineError, depthError, swim) * metre;
        placed.acrossSigma = std::hypot(r * aim, swim) * metre;
    }

    /// Readings without a depth lie, until the bed is known, as deep as the nearest depth on their
    /// own cast.
    void placeWithoutDepth(CastReduction& cast) {
        for (PlacedReading& placed : cast.readings) {
            if (!placed.line || placed.place) {
                continue;
            }
            Length drop = result_.visit.tipHeight;
            double nearest = 1e300;
            for (const Sounding& sounding : cast.soundings) {
                const double gap =
                    std::abs((sounding.line->line.length - placed.line->length).si());
                if (gap < nearest) {
                    nearest = gap;
                    drop = sounding.line->drop;
                }
            }
            const Length lineSigma = placed.alongSigma;
            if (placeOnLine(placed, s_.swim.tip, cast.cast.direction, drop) ||
                placeOnLine(placed, s_.swim.tip, cast.cast.direction, Length{})) {
                setPlaceSigmas(placed, cast.cast, lineSigma, drop);
            }
        }
    }

    const VisitSetting& s_;
    VisitReduction result_;
    std::map<Unit, double> lineSteps_;
    std::map<Unit, double> depthSteps_;
};

} // namespace

bool placeOnLine(PlacedReading& reading, Point tip, PlaneBearing direction, Length drop) {
    const auto range = groundDistance(*reading.line, drop);
    if (!range) {
        return false;
    }
    reading.range = *range;
    reading.place = along(tip, direction, range->length.si());
    if (reading.lineTo) {
        const auto nearEnd = groundDistance(*reading.lineTo, drop);
        reading.placeTo =
            nearEnd ? std::optional(along(tip, direction, nearEnd->length.si())) : std::nullopt;
    }
    return true;
}

VisitReduction reduceVisit(const VisitSetting& setting) {
    return VisitReducer(setting).run();
}

} // namespace bedlore
