// SPDX-License-Identifier: MIT
#include "core/geodesy/local_frame.hpp"
#include "core/io/import_places.hpp"
#include "core/io/import_session.hpp"
#include "core/io/import_text.hpp"
#include "core/units/format.hpp"

#include <cmath>
#include <unordered_map>
#include <utility>

// Swims and reels into the book.

namespace bedlore {

namespace {

// What the finest digit of a file means: 1e-9° is a tenth of a millimetre.
constexpr double sameDegrees = 1e-9;
constexpr double sameMetres = 1e-4;

bool samePlace(const Place& a, const Place& b) {
    if (const auto* first = std::get_if<GeographicPoint>(&a)) {
        const auto* second = std::get_if<GeographicPoint>(&b);
        return second != nullptr && std::abs(first->latitude - second->latitude) <= sameDegrees &&
               std::abs(first->longitude - second->longitude) <= sameDegrees;
    }
    if (const auto* first = std::get_if<Point>(&a)) {
        const auto* second = std::get_if<Point>(&b);
        return second != nullptr && std::abs(first->east - second->east) <= sameMetres &&
               std::abs(first->north - second->north) <= sameMetres;
    }
    return std::holds_alternative<std::monostate>(b);
}

bool isKnown(const Place& place) {
    return !std::holds_alternative<std::monostate>(place);
}

std::string inWords(const Place& place) {
    if (const auto* globe = std::get_if<GeographicPoint>(&place)) {
        return printExact(globe->latitude) + ", " + printExact(globe->longitude);
    }
    if (const auto* point = std::get_if<Point>(&place)) {
        return printExact(point->east) + " m east, " + printExact(point->north) + " m north";
    }
    return "none";
}

bool sameHeight(const Entered& a, const Entered& b) {
    const auto first = fixedLength(a);
    const auto second = fixedLength(b);
    return first && second && std::abs((*first - *second) / metre) <= sameMetres;
}

class SwimPlanner {
public:
    SwimPlanner(ImportSession& session, ParsedFile& file, const SwimRows& rows)
        : session_(session)
        , faults_(file.faults)
        , rows_(rows)
        , reference_(referencePlace()) {
        for (const Swim* swim : swimsOf(session.book(), session.waterId())) {
            known_.emplace(lowerCase(swim->name), swim);
        }
    }

    [[nodiscard]] Edits plan() {
        for (const SwimRow& row : rows_.rows) {
            take(row);
        }
        Edits edits;
        for (Swim& swim : touched_) {
            edits.emplace_back(Put<Swim>{std::move(swim)});
        }
        return edits;
    }

private:
    [[nodiscard]] std::optional<GeographicPoint> referencePlace() const {
        if (session_.water().planeOrigin) {
            return session_.water().planeOrigin;
        }
        std::vector<GeographicPoint> places;
        for (const SwimRow& row : rows_.rows) {
            if (const auto* place = std::get_if<GeographicPoint>(&row.place)) {
                places.push_back(*place);
            }
        }
        return places.empty() ? std::nullopt : std::optional(medianPlace(places));
    }

    void take(const SwimRow& row) {
        const auto* globe = std::get_if<GeographicPoint>(&row.place);
        if (globe != nullptr && roughDistance(*globe, *reference_) > farthestPlace) {
            faults_.add(row.line, "lat", inWords(row.place), std::string(nearOtherPlaces));
            return;
        }
        const std::string key = lowerCase(row.name);
        const auto earlier = touchedByName_.find(key);
        const auto known = known_.find(key);
        const Swim* there = earlier != touchedByName_.end() ? &touched_[earlier->second]
                            : known != known_.end()         ? known->second
                                                            : nullptr;
        Swim swim = there != nullptr ? *there : Swim();
        swim.water = session_.waterId();
        swim.name = there != nullptr ? there->name : row.name;
        if (!merge(row, swim)) {
            return;
        }
        if (there == nullptr) {
            swim.id = session_.ids().take<Swim>();
        }
        if (earlier != touchedByName_.end()) {
            touched_[earlier->second] = std::move(swim);
        } else if (there == nullptr || swim != *there) {
            touchedByName_.emplace(key, touched_.size());
            touched_.push_back(std::move(swim));
        }
    }

    /// Gives the swim what it does not have yet; false where the row says something else than it
    /// has.
    bool merge(const SwimRow& row, Swim& swim) {
        bool agrees = true;
        if (isKnown(row.place) && isKnown(swim.place) && !samePlace(row.place, swim.place)) {
            faults_.add(
                row.line,
                rows_.geographic ? "lat" : "east_m",
                inWords(row.place),
                "the place that swim " + swim.name + " has already, " + inWords(swim.place));
            agrees = false;
        }
        if (row.tipHeight && swim.tipHeight && !sameHeight(*row.tipHeight, *swim.tipHeight)) {
            faults_.add(
                row.line,
                "tip_height_m",
                row.tipHeight->text,
                "the height that swim " + swim.name + " has already, " +
                    printEntered(*swim.tipHeight));
            agrees = false;
        }
        if (isKnown(row.place) && !isKnown(swim.place)) {
            swim.place = row.place;
        }
        if (row.tipHeight && !swim.tipHeight) {
            swim.tipHeight = row.tipHeight;
        }
        return agrees;
    }

    ImportSession& session_;
    FaultList& faults_;
    const SwimRows& rows_;
    std::optional<GeographicPoint> reference_;
    std::unordered_map<std::string, const Swim*> known_; ///< by name in lower case
    std::vector<Swim> touched_;
    std::unordered_map<std::string, std::size_t> touchedByName_;
};

bool hasPair(const Reel& reel, const CalibrationPair& pair) {
    for (const CalibrationPair& known : reel.calibration) {
        if (known.turns == pair.turns && sameHeight(known.distance, pair.distance)) {
            return true;
        }
    }
    return false;
}

} // namespace

Result<void> planSwims(ImportSession& session, ParsedFile& file) {
    const auto& rows = std::get<SwimRows>(file.content);
    bool anyPlace = false;
    for (const SwimRow& row : rows.rows) {
        anyPlace = anyPlace || isKnown(row.place);
    }
    if (anyPlace) {
        if (const auto why = whyPlacesDoNotFit(session.book(), session.water(), rows.geographic)) {
            file.faults.addForFile(
                1,
                rows.geographic ? "lat" : "east_m",
                rows.geographic ? "lat, lon" : "east_m, north_m",
                *why);
            return {};
        }
    }
    return session.apply(SwimPlanner(session, file, rows).plan());
}

Result<void> setOriginFromSwims(ImportSession& session) {
    if (session.water().planeOrigin) {
        return {};
    }
    std::vector<GeographicPoint> places;
    for (const Swim* swim : swimsOf(session.book(), session.waterId())) {
        if (const auto* place = std::get_if<GeographicPoint>(&swim->place)) {
            places.push_back(*place);
        }
    }
    if (places.empty()) {
        return {};
    }
    Water water = session.water();
    water.planeOrigin = planeOriginFor(places);
    return session.put(std::move(water));
}

namespace {

Reel newReel(ImportSession& session, const std::string& name) {
    Reel reel;
    reel.id = session.ids().take<Reel>();
    reel.name = name;
    return reel;
}

} // namespace

Result<void> planReels(ImportSession& session, ParsedFile& file) {
    std::unordered_map<std::string, const Reel*> inBook;
    for (const Reel& reel : session.book().all<Reel>()) {
        inBook.emplace(lowerCase(reel.name), &reel);
    }
    std::vector<Reel> touched;
    std::unordered_map<std::string, std::size_t> touchedByName;
    for (const ReelRow& row : std::get<ReelRows>(file.content).rows) {
        const std::string key = lowerCase(row.name);
        const auto found = inBook.find(key);
        const Reel* known = found != inBook.end() ? found->second : nullptr;
        const CalibrationPair pair{.turns = row.turns, .distance = row.distance};
        if (known != nullptr && hasPair(*known, pair)) {
            continue;
        }
        const auto [at, isNew] = touchedByName.try_emplace(key, touched.size());
        if (isNew) {
            touched.push_back(known != nullptr ? *known : newReel(session, row.name));
        }
        touched[at->second].calibration.push_back(pair);
    }
    Edits edits;
    for (Reel& reel : touched) {
        edits.emplace_back(Put<Reel>{std::move(reel)});
    }
    return session.apply(std::move(edits));
}

} // namespace bedlore
