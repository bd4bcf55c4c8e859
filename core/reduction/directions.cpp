// SPDX-License-Identifier: MIT
#include "core/reduction/directions.hpp"

#include "core/base/overloaded.hpp"
#include "core/reduction/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <set>
#include <utility>
#include <variant>

namespace bedlore {

namespace {

constexpr Angle guessedStep = 10.0 * degree;
constexpr Angle widestGuess = 150.0 * degree;

/// One direction to find: an aim, or a cast that has neither an aim nor a bearing.
struct Slot {
    std::variant<Id<Aim>, Id<Cast>> what;
    std::optional<PlaneBearing> known;
};

Angle offsetAngle(const Entered& offset) {
    if (offset.unit == Unit::Fist) {
        return offset.number * 10.0 * degree; // at arm's length [M]
    }
    if (offset.unit == Unit::Finger) {
        return offset.number * 2.0 * degree; // at arm's length [M]
    }
    return offset.number * degree;
}

/// The middle of directions as unit vectors; none where they cancel.
std::optional<PlaneBearing> middle(std::vector<PlaneBearing> directions) {
    // Sums do not depend on who was entered first.
    std::sort(directions.begin(), directions.end());
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
    Resolver(const Book& book, const VisitNotes& notes, const NorthAt& north, Point tip)
        : book_(book)
        , notes_(notes)
        , visit_(*notes.visit)
        , north_(north)
        , tip_(tip) {}

    VisitDirections run() {
        for (const Aim* aim : notes_.aims) {
            setByBearing(*aim);
        }
        for (const CastNotes& cast : notes_.casts) {
            setByBearing(*cast.cast);
        }
        findStraightOut();
        for (const Aim* aim : notes_.aims) {
            setByClock(*aim);
        }
        setHanging(IfBaseUnknown::Wait);
        guessRest();
        setHanging(IfBaseUnknown::Guess);
        giveCasts();
        return std::move(result_);
    }

private:
    /// `about` is whose bearing it is. A compass bearing that nothing turns is kept as it is, and
    /// said.
    std::optional<CastDirection>
    fromEntry(const BearingEntry& entry, std::variant<Id<Aim>, Id<Cast>> about, Angle sigma) {
        const auto bearing = north_.toPlane(entry);
        if (bearing) {
            result_.usesTrueNorth |= entry.north == North::True;
            result_.usesCompass |= entry.north == North::Magnetic;
            return CastDirection{.bearing = *bearing, .sigma = sigma, .guessed = false};
        }
        result_.faults.push_back({.about = about, .sentence = bearing.error().message});
        if (!std::isfinite(entry.degrees.number)) {
            return std::nullopt;
        }
        return CastDirection{
            .bearing = PlaneBearing(entry.degrees.number * degree),
            .sigma = sigma,
            .guessed = true};
    }

    [[nodiscard]] std::optional<PlaneBearing> towards(const Place& place) const {
        const auto* point = std::get_if<Point>(&place);
        const auto* onEarth = std::get_if<GeographicPoint>(&place);
        if (point == nullptr && (onEarth == nullptr || !north_.frame().hasOrigin())) {
            return std::nullopt;
        }
        const Point at = point != nullptr ? *point : north_.frame().toPlane(*onEarth);
        const double east = at.east - tip_.east;
        const double north = at.north - tip_.north;
        if (!(std::hypot(east, north) > 1.0)) { // a mark on the swim itself shows no way
            return std::nullopt;
        }
        return PlaneBearing(std::atan2(east, north) * radian);
    }

    std::optional<CastDirection> fromMark(const AimAtMark& aim, Id<Aim> id, Angle sigma) {
        const Mark& mark = book_.get(aim.mark);
        std::optional<CastDirection> found;
        if (const auto bearing = towards(mark.place)) {
            found = CastDirection{.bearing = *bearing, .sigma = sigma, .guessed = false};
        } else if (mark.bearing && mark.bearingFrom == visit_.swim) {
            found = fromEntry(*mark.bearing, id, sigma);
        }
        if (found && aim.offset) {
            found->bearing = found->bearing + offsetAngle(*aim.offset);
        }
        return found;
    }

    void setByBearing(const Aim& aim) {
        const Angle sigma = aimSigma(visit_, aim.basis);
        std::optional<CastDirection> found;
        if (const auto* atMark = std::get_if<AimAtMark>(&aim.basis)) {
            found = fromMark(*atMark, aim.id, sigma);
        } else if (const auto* atBearing = std::get_if<AimAtBearing>(&aim.basis)) {
            found = fromEntry(atBearing->bearing, aim.id, sigma);
        }
        if (found) {
            result_.aims[aim.id] = *found;
        }
    }

    void setByBearing(const Cast& cast) {
        if (!cast.bearing) {
            return;
        }
        const Angle sigma = aimSigma(visit_, AimAtBearing{*cast.bearing});
        if (const auto found = fromEntry(*cast.bearing, cast.id, sigma)) {
            result_.casts[cast.id] = *found;
        }
    }

    void findStraightOut() {
        const Swim& swim = book_.get(visit_.swim);
        std::vector<PlaneBearing> known;
        if (swim.leftBoundary && swim.rightBoundary) {
            const auto left = north_.toPlane(*swim.leftBoundary);
            const auto right = north_.toPlane(*swim.rightBoundary);
            if (left && right) {
                known = {*left, *right};
            }
        }
        if (known.empty()) {
            for (const auto& [id, direction] : result_.aims) {
                known.push_back(direction.bearing);
            }
            for (const auto& [id, direction] : result_.casts) {
                known.push_back(direction.bearing);
            }
        }
        const auto found = middle(std::move(known));
        straightOut_ = found.value_or(PlaneBearing{});
        straightOutGuessed_ = !found;
    }

    void setByClock(const Aim& aim) {
        const auto* basis = std::get_if<AimAtClock>(&aim.basis);
        if (basis == nullptr || !std::isfinite(basis->hour.number)) {
            return;
        }
        result_.aims[aim.id] = {
            .bearing = straightOut_ + (basis->hour.number - 12.0) * 30.0 * degree,
            .sigma = aimSigma(visit_, aim.basis),
            .guessed = straightOutGuessed_};
    }

    /// Aims that hang on one without an angle follow it; all others, and casts with nothing at all,
    /// hold a place in the fan.
    [[nodiscard]] std::vector<Slot> slots() const {
        std::vector<Slot> slots;
        for (const Aim* aim : notes_.aims) {
            const auto known = result_.aims.find(aim->id);
            if (known != result_.aims.end()) {
                slots.push_back({.what = aim->id, .known = known->second.bearing});
            } else if (!std::holds_alternative<AimFromAim>(aim->basis)) {
                slots.push_back({.what = aim->id, .known = {}});
            }
        }
        for (const Aim* aim : notes_.aims) {
            if (const auto* left = std::get_if<AimLeftOf>(&aim->basis)) {
                moveBefore(slots, aim->id, left->other);
            }
        }
        for (const CastNotes& cast : notes_.casts) {
            if (!cast.cast->aim && !result_.casts.contains(cast.cast->id)) {
                slots.push_back({.what = cast.cast->id, .known = {}});
            }
        }
        return slots;
    }

    static void moveBefore(std::vector<Slot>& slots, Id<Aim> aim, Id<Aim> other) {
        const auto find = [&](Id<Aim> id) {
            return std::find_if(slots.begin(), slots.end(), [&](const Slot& slot) {
                const auto* held = std::get_if<Id<Aim>>(&slot.what);
                return held != nullptr && *held == id;
            });
        };
        const auto from = find(aim);
        if (from == slots.end() || find(other) == slots.end()) {
            return;
        }
        const Slot moved = *from;
        slots.erase(from);
        slots.insert(find(other), moved);
    }

    void guessRest() {
        const std::vector<Slot> all = slots();
        std::size_t begin = 0;
        while (begin < all.size()) {
            std::size_t end = begin;
            while (end < all.size() && !all[end].known) {
                ++end;
            }
            if (end > begin) {
                guessRun(all, begin, end);
            }
            begin = end + 1;
        }
    }

    /// Slots from `begin` to before `end` have no angle; their neighbours, where there are any, do.
    void guessRun(const std::vector<Slot>& all, std::size_t begin, std::size_t end) {
        const auto count = static_cast<double>(end - begin);
        Angle step = std::min(guessedStep, widestGuess / std::max(count - 1.0, 1.0));
        PlaneBearing first = straightOut_ - 0.5 * (count - 1.0) * step;
        if (begin > 0 && end < all.size()) {
            const PlaneBearing left = *all[begin - 1].known;
            step = (*all[end].known - left) / (count + 1.0);
            first = left + step;
        } else if (begin > 0) {
            first = *all[begin - 1].known + step;
        } else if (end < all.size()) {
            first = *all[end].known - count * step;
        }
        for (std::size_t i = begin; i < end; ++i) {
            const CastDirection guess{
                .bearing = first + static_cast<double>(i - begin) * step,
                .sigma = usual::aimGuessed,
                .guessed = true};
            if (const auto* aim = std::get_if<Id<Aim>>(&all[i].what)) {
                result_.aims[*aim] = guess;
            } else {
                result_.casts[std::get<Id<Cast>>(all[i].what)] = guess;
            }
        }
    }

    enum class IfBaseUnknown : std::uint8_t { Wait, Guess };

    void setHanging(IfBaseUnknown unknown) {
        for (const Aim* aim : notes_.aims) {
            if (!result_.aims.contains(aim->id) &&
                (unknown == IfBaseUnknown::Guess ||
                 std::holds_alternative<AimFromAim>(aim->basis))) {
                setFromOther(aim->id, unknown);
            }
        }
    }

    /// An aim that hangs on another, however long the chain; a chain that bites its tail goes
    /// straight out, guessed.
    void setFromOther(Id<Aim> id, IfBaseUnknown unknown) {
        std::set<Id<Aim>> seen;
        std::vector<const Aim*> chain;
        Id<Aim> at = id;
        while (!result_.aims.contains(at) && seen.insert(at).second) {
            const Aim& aim = book_.get(at);
            const auto* basis = std::get_if<AimFromAim>(&aim.basis);
            if (basis == nullptr) { // of another visit, or nothing that leads anywhere
                break;
            }
            chain.push_back(&aim);
            at = basis->other;
        }
        if (!result_.aims.contains(at)) {
            if (unknown == IfBaseUnknown::Wait) {
                return;
            }
            result_.aims[at] = {
                .bearing = straightOut_, .sigma = usual::aimGuessed, .guessed = true};
        }
        std::reverse(chain.begin(), chain.end());
        for (const Aim* aim : chain) {
            const auto& basis = std::get<AimFromAim>(aim->basis);
            if (result_.aims.contains(aim->id)) {
                continue;
            }
            const CastDirection from = result_.aims.at(basis.other);
            const Angle own = aimSigma(visit_, aim->basis);
            result_.aims[aim->id] = {
                .bearing = from.bearing + offsetAngle(basis.offset),
                .sigma = from.guessed ? std::max(from.sigma, own) : own,
                .guessed = from.guessed};
        }
    }

    void giveCasts() {
        for (const CastNotes& notes : notes_.casts) {
            const Cast& cast = *notes.cast;
            if (result_.casts.contains(cast.id)) {
                continue;
            }
            const auto aim = cast.aim ? result_.aims.find(*cast.aim) : result_.aims.end();
            result_.casts[cast.id] =
                aim != result_.aims.end()
                    ? aim->second
                    : CastDirection{
                          .bearing = straightOut_, .sigma = usual::aimGuessed, .guessed = true};
        }
    }

    const Book& book_;
    const VisitNotes& notes_;
    const Visit& visit_;
    const NorthAt& north_;
    Point tip_;
    PlaneBearing straightOut_;
    bool straightOutGuessed_ = true;
    VisitDirections result_;
};

} // namespace

VisitDirections
castDirections(const Book& book, const VisitNotes& notes, const NorthAt& north, Point tip) {
    return Resolver(book, notes, north, tip).run();
}

VisitDirections
castDirections(const Book& book, const Visit& visit, const LocalFrame& frame, Point tip) {
    const Water& water = book.get(book.get(visit.swim).water);
    const NorthAt north(frame, tip, water.position, visit.date);
    const std::vector<VisitNotes> all = notesOf(book, water.id);
    const auto notes = std::find_if(all.begin(), all.end(), [&](const VisitNotes& candidate) {
        return candidate.visit->id == visit.id;
    });
    return notes == all.end() ? VisitDirections{} : castDirections(book, *notes, north, tip);
}

} // namespace bedlore
