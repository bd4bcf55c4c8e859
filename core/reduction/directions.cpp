// SPDX-License-Identifier: MIT
#include "core/reduction/directions.hpp"

#include "core/base/overloaded.hpp"
#include "core/geodesy/magnetic_model.hpp"
#include "core/reduction/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <variant>

namespace bedlore {

namespace {

constexpr Angle guessedStep = 10.0 * degree;

/// One direction to find: an aim, or a cast that has neither an aim nor a bearing.
struct Slot {
    std::variant<Id<Aim>, Id<Cast>> what;
    std::optional<PlaneBearing> known;
};

Angle offsetAngle(const Entered& offset) {
    switch (offset.unit) {
    case Unit::Fist:
        return offset.number * 10.0 * degree; // common practice [M]
    case Unit::Finger:
        return offset.number * 2.0 * degree; // common practice [M]
    default:
        return offset.number * degree;
    }
}

/// The middle of directions as unit vectors; none where they cancel.
std::optional<PlaneBearing> middle(const std::vector<PlaneBearing>& directions) {
    double east = 0.0;
    double north = 0.0;
    for (const PlaneBearing& direction : directions) {
        east += std::sin(direction.clockwise().si());
        north += std::cos(direction.clockwise().si());
    }
    if (std::hypot(east, north) < 1e-9) {
        return std::nullopt;
    }
    return PlaneBearing(std::atan2(east, north) * radian);
}

class Resolver {
public:
    Resolver(const Book& book, const Visit& visit, const LocalFrame& frame, Point tip)
        : book_(book)
        , visit_(visit)
        , frame_(frame)
        , tip_(tip) {}

    VisitDirections run() {
        collectSlots();
        findStraightOut();
        for (Slot& slot : slots_) {
            if (const auto* aim = std::get_if<Id<Aim>>(&slot.what)) {
                slot.known = fromBasis(*aim);
            }
        }
        guessRest();
        for (const Aim* aim : aims_) {
            if (!result_.aims.contains(aim->id)) {
                fromGuessed(aim->id);
            }
        }
        giveCasts();
        return std::move(result_);
    }

private:
    /// Aims that hang on another aim follow it; all others, and casts with nothing at all, hold a
    /// place in the fan.
    void collectSlots() {
        aims_ = aimsOf(book_, visit_.id);
        for (const Aim* aim : aims_) {
            if (!std::holds_alternative<AimFromAim>(aim->basis)) {
                slots_.push_back({.what = aim->id, .known = {}});
            }
        }
        for (const Aim* aim : aims_) {
            if (const auto* left = std::get_if<AimLeftOf>(&aim->basis)) {
                moveBefore(aim->id, left->other);
            }
        }
        for (const Cast* cast : castsOf(book_, visit_.id)) {
            if (!cast->aim && !cast->bearing) {
                slots_.push_back({.what = cast->id, .known = {}});
            }
        }
    }

    void moveBefore(Id<Aim> aim, Id<Aim> other) {
        const auto find = [&](Id<Aim> id) {
            return std::find_if(slots_.begin(), slots_.end(), [&](const Slot& slot) {
                const auto* held = std::get_if<Id<Aim>>(&slot.what);
                return held != nullptr && *held == id;
            });
        };
        const auto from = find(aim);
        if (from == slots_.end() || find(other) == slots_.end()) {
            return;
        }
        const Slot moved = *from;
        slots_.erase(from);
        slots_.insert(find(other), moved);
    }

    std::optional<PlaneBearing> fromEntry(const BearingEntry& entry) {
        const auto bearing = planeBearing(entry, frame_, tip_, visit_.date);
        if (!bearing) {
            result_.notices.push_back(bearing.error().message);
            return std::nullopt;
        }
        return *bearing;
    }

    std::optional<PlaneBearing> fromMark(const AimAtMark& aim) {
        const Mark& mark = book_.get(aim.mark);
        std::optional<PlaneBearing> bearing;
        if (const auto* place = std::get_if<Point>(&mark.place)) {
            bearing = towards(*place);
        } else if (const auto* onEarth = std::get_if<GeographicPoint>(&mark.place);
                   onEarth != nullptr && frame_.hasOrigin()) {
            bearing = towards(frame_.toPlane(*onEarth));
        } else if (mark.bearing && mark.bearingFrom == visit_.swim) {
            bearing = fromEntry(*mark.bearing);
        }
        if (bearing && aim.offset) {
            bearing = *bearing + offsetAngle(*aim.offset);
        }
        return bearing;
    }

    PlaneBearing towards(Point place) const {
        return PlaneBearing(std::atan2(place.east - tip_.east, place.north - tip_.north) * radian);
    }

    /// The direction of an aim that needs no guess, with whatever hangs on it.
    std::optional<PlaneBearing> fromBasis(Id<Aim> id) {
        const Aim& aim = book_.get(id);
        const auto bearing = std::visit(
            Overloaded{
                [&](const AimAtMark& basis) { return fromMark(basis); },
                [&](const AimAtBearing& basis) { return fromEntry(basis.bearing); },
                [&](const AimAtClock& basis) -> std::optional<PlaneBearing> {
                    return straightOut_ + (basis.hour.number - 12.0) * 30.0 * degree;
                },
                [](const auto&) -> std::optional<PlaneBearing> { return std::nullopt; }},
            aim.basis);
        if (bearing) {
            const bool guessed =
                std::holds_alternative<AimAtClock>(aim.basis) && straightOutGuessed_;
            result_.aims[id] = {
                .bearing = *bearing, .sigma = aimSigma(visit_, aim.basis), .guessed = guessed};
        }
        return bearing;
    }

    void findStraightOut() {
        const Swim& swim = book_.get(visit_.swim);
        std::vector<PlaneBearing> known;
        if (swim.leftBoundary && swim.rightBoundary) {
            for (const auto& side : {*swim.leftBoundary, *swim.rightBoundary}) {
                if (const auto bearing = planeBearing(side, frame_, tip_, visit_.date)) {
                    known.push_back(*bearing);
                }
            }
        }
        if (known.size() < 2) {
            known = knownDirections();
        }
        const auto found = middle(known);
        straightOut_ = found.value_or(PlaneBearing{});
        straightOutGuessed_ = !found;
    }

    std::vector<PlaneBearing> knownDirections() {
        std::vector<PlaneBearing> known;
        for (const Aim* aim : aims_) {
            std::optional<PlaneBearing> bearing;
            if (const auto* atMark = std::get_if<AimAtMark>(&aim->basis)) {
                bearing = fromMark(*atMark);
            } else if (const auto* atBearing = std::get_if<AimAtBearing>(&aim->basis)) {
                bearing = fromEntry(atBearing->bearing);
            }
            if (bearing) {
                known.push_back(*bearing);
            }
        }
        for (const Cast* cast : castsOf(book_, visit_.id)) {
            if (!cast->bearing) {
                continue;
            }
            const auto bearing = planeBearing(*cast->bearing, frame_, tip_, visit_.date);
            if (bearing) {
                known.push_back(*bearing);
            }
        }
        result_.notices.clear(); // said again, once, when the aims themselves are read
        return known;
    }

    void guessRest() {
        std::size_t i = 0;
        while (i < slots_.size()) {
            if (slots_[i].known) {
                ++i;
                continue;
            }
            std::size_t end = i;
            while (end < slots_.size() && !slots_[end].known) {
                ++end;
            }
            guessRun(i, end);
            i = end;
        }
    }

    /// Slots from `begin` to before `end` have no angle; their neighbours, where there are any, do.
    void guessRun(std::size_t begin, std::size_t end) {
        const auto count = static_cast<double>(end - begin);
        PlaneBearing first = straightOut_ - 0.5 * (count - 1.0) * guessedStep;
        Angle step = guessedStep;
        if (begin > 0 && end < slots_.size()) {
            const PlaneBearing left = *slots_[begin - 1].known;
            step = (*slots_[end].known - left) / (count + 1.0);
            first = left + step;
        } else if (begin > 0) {
            first = *slots_[begin - 1].known + step;
        } else if (end < slots_.size()) {
            first = *slots_[end].known - count * step;
        }
        for (std::size_t i = begin; i < end; ++i) {
            setGuess(slots_[i], first + static_cast<double>(i - begin) * step);
        }
    }

    void setGuess(const Slot& slot, PlaneBearing bearing) {
        const CastDirection direction{
            .bearing = bearing, .sigma = usual::aimGuessed, .guessed = true};
        if (const auto* aim = std::get_if<Id<Aim>>(&slot.what)) {
            result_.aims[*aim] = direction;
        } else {
            result_.casts[std::get<Id<Cast>>(slot.what)] = direction;
        }
    }

    /// An aim that hangs on another, however long the chain; a chain that bites its tail goes
    /// straight out, guessed.
    void fromGuessed(Id<Aim> id) {
        std::set<Id<Aim>> seen;
        std::vector<const Aim*> chain;
        Id<Aim> at = id;
        while (!result_.aims.contains(at) && seen.insert(at).second) {
            const Aim& aim = book_.get(at);
            chain.push_back(&aim);
            at = std::get<AimFromAim>(aim.basis).other;
        }
        if (!result_.aims.contains(at)) {
            result_.aims[at] = {
                .bearing = straightOut_, .sigma = usual::aimGuessed, .guessed = true};
        }
        for (auto aim = chain.rbegin(); aim != chain.rend(); ++aim) {
            const auto& basis = std::get<AimFromAim>((*aim)->basis);
            if (result_.aims.contains((*aim)->id)) {
                continue;
            }
            const CastDirection from = result_.aims.at(basis.other);
            result_.aims[(*aim)->id] = {
                .bearing = from.bearing + offsetAngle(basis.offset),
                .sigma = aimSigma(visit_, (*aim)->basis),
                .guessed = from.guessed};
        }
    }

    void giveCasts() {
        for (const Cast* cast : castsOf(book_, visit_.id)) {
            std::optional<PlaneBearing> own;
            if (cast->bearing) {
                own = fromEntry(*cast->bearing);
            }
            if (own) {
                result_.casts[cast->id] = {
                    .bearing = *own,
                    .sigma = aimSigma(visit_, AimAtBearing{*cast->bearing}),
                    .guessed = false};
            } else if (cast->aim) {
                result_.casts[cast->id] = result_.aims.at(*cast->aim);
            } else if (!result_.casts.contains(cast->id)) {
                result_.casts[cast->id] = {
                    .bearing = straightOut_, .sigma = usual::aimGuessed, .guessed = true};
            }
        }
    }

    const Book& book_;
    const Visit& visit_;
    const LocalFrame& frame_;
    Point tip_;
    std::vector<const Aim*> aims_;
    std::vector<Slot> slots_;
    PlaneBearing straightOut_;
    bool straightOutGuessed_ = true;
    VisitDirections result_;
};

} // namespace

Result<PlaneBearing>
planeBearing(const BearingEntry& entry, const LocalFrame& frame, Point tip, Date date) {
    const Angle typed = entry.degrees.number * degree;
    switch (entry.north) {
    case North::Grid:
        return PlaneBearing(typed);
    case North::True:
        return frame.toPlane(Bearing(typed), tip);
    case North::Magnetic:
        break;
    }
    if (!frame.hasOrigin()) {
        return fail(inputError("A magnetic bearing needs the water's latitude and longitude."));
    }
    const Declination declination = declinationAt(frame.toGeographic(tip), date);
    return frame.toPlane(Bearing(typed + declination.east), tip);
}

VisitDirections
castDirections(const Book& book, const Visit& visit, const LocalFrame& frame, Point tip) {
    return Resolver(book, visit, frame, tip).run();
}

} // namespace bedlore
