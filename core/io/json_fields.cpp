// SPDX-License-Identifier: MIT
#include "core/io/json_fields.hpp"

#include "core/base/overloaded.hpp"
#include "core/io/enum_codes.hpp"

#include <cmath>
#include <cstdint>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <utility>
#include <variant>

namespace bedlore {

namespace {

/// Keys stay in the order that a person would write them in.
using Json = nlohmann::ordered_json;

// The library reports what it finds by exceptions, so whatever is wrong in a value does the same
// here. They end in `toJson` and `fromJson`.

Json number(double value) {
    if (!std::isfinite(value)) {
        throw std::domain_error("a number is not finite");
    }
    return value;
}

Json put(double value) {
    return number(value);
}
Json put(const Drop& kind) {
    return codeOf(kind);
}
Json put(const OnLead& kind) {
    return codeOf(kind);
}
template <class Record>
Json put(Id<Record> id) {
    return id.value;
}
Json put(const ShorePart& part);
Json put(const Entered& entered) {
    return {
        {"number", number(entered.number)},
        {"unit", unitCode(entered.unit)},
        {"text", entered.text}};
}
Json put(const BearingEntry& bearing) {
    Json json = put(bearing.degrees);
    json["north"] = codeOf(bearing.north);
    return json;
}
Json put(const Place& place) {
    return std::visit(
        Overloaded{
            [](std::monostate) { return Json(nullptr); },
            [](const GeographicPoint& p) {
                return Json{{"lat", number(p.latitude)}, {"lon", number(p.longitude)}};
            },
            [](const Point& p) {
                return Json{{"east", number(p.east)}, {"north", number(p.north)}};
            }},
        place);
}
template <class T>
Json put(const std::optional<T>& field) {
    return field ? put(*field) : Json(nullptr);
}
Json put(const CalibrationPair& pair) {
    return {{"turns", number(pair.turns)}, {"distance", put(pair.distance)}};
}
Json put(const Allowance& allowance) {
    return {
        {"depth_from", put(allowance.depthFrom)},
        {"depth_to", put(allowance.depthTo)},
        {"add", put(allowance.add)}};
}
Json put(const LengthUsed& used) {
    return {{"rod", used.rod}, {"visit", put(used.visit)}, {"length", put(used.length)}};
}
template <class T>
Json put(const std::vector<T>& fields) {
    Json json = Json::array();
    for (const T& field : fields) {
        json.push_back(put(field));
    }
    return json;
}
Json put(const ShorePart& part) {
    return {
        {"kind", codeOf(part.kind)}, {"level", put(part.level)}, {"vertices", put(part.vertices)}};
}
Json put(const SpoolDimensions& spool) {
    return {
        {"full_diameter", put(spool.fullDiameter)},
        {"gear_ratio", number(spool.gearRatio)},
        {"line_diameter", put(spool.lineDiameter)},
        {"traverse", put(spool.traverse)},
        {"packing", number(spool.packing)}};
}
Json put(const AimBasis& basis) {
    return std::visit(
        Overloaded{
            [](const AimWithoutAngle&) {
                return Json{{"by", "order"}};
            },
            [](const AimAtMark& aim) {
                return Json{{"by", "mark"}, {"mark", put(aim.mark)}, {"offset", put(aim.offset)}};
            },
            [](const AimAtBearing& aim) {
                return Json{{"by", "bearing"}, {"bearing", put(aim.bearing)}};
            },
            [](const AimFromAim& aim) {
                return Json{{"by", "aim"}, {"aim", put(aim.other)}, {"offset", put(aim.offset)}};
            },
            [](const AimAtClock& aim) {
                return Json{{"by", "clock"}, {"hour", put(aim.hour)}};
            },
            [](const AimLeftOf& aim) {
                return Json{{"by", "left_of"}, {"aim", put(aim.other)}};
            }},
        basis);
}
Json put(const SpotPlace& place) {
    return std::visit(
        Overloaded{
            [](const Place& p) { return put(p); },
            [](const OnAim& on) {
                return Json{{"aim", put(on.aim)}, {"line_out", put(on.lineOut)}};
            }},
        place);
}
Json put(const LogContent& content) {
    return std::visit(
        Overloaded{
            [](const RodOut& c) {
                return Json{
                    {"what", "rod_out"},
                    {"rod", c.rod},
                    {"spot", put(c.spot)},
                    {"drop", put(c.drop)},
                    {"rig", c.rig},
                    {"hookbait", c.hookbait}};
            },
            [](const BaitPut& c) {
                return Json{
                    {"what", "bait"},
                    {"loads", put(c.loads)},
                    {"mix", c.mix},
                    {"mass", put(c.mass)},
                    {"spot", put(c.spot)}};
            },
            [](const Bite& c) {
                return Json{
                    {"what", "bite"},
                    {"rod", c.rod},
                    {"spot", put(c.spot)},
                    {"outcome", codeOf(c.outcome)},
                    {"species", c.species},
                    {"mass", put(c.mass)},
                    {"fish", c.fish}};
            },
            [](const Weather& c) {
                return Json{{"what", "weather"}, {"words", c.words}};
            },
            [](const Shows& c) {
                return Json{{"what", "shows"}, {"words", c.words}};
            },
            [](const Hearsay& c) {
                return Json{
                    {"what", "hearsay"}, {"who", c.who}, {"trust", c.trust}, {"words", c.words}};
            }},
        content);
}

template <class T>
void take(const Json& json, T& field);

template <class T>
T member(const Json& json, const char* key) {
    T field{};
    take(json.at(key), field);
    return field;
}

struct Taker {
    const Json& json;

    void operator()(double& field) const {
        if (!json.is_number()) {
            throw std::domain_error("a number is missing");
        }
        field = number(json.get<double>());
    }
    void operator()(int& field) const {
        if (!json.is_number_integer()) {
            throw std::domain_error("a whole number is missing");
        }
        const auto value = json.get<std::int64_t>();
        if (!std::in_range<int>(value)) {
            throw std::domain_error("a whole number is too large");
        }
        field = static_cast<int>(value);
    }
    void operator()(std::string& field) const { field = json.get<std::string>(); }
    template <class Record>
    void operator()(Id<Record>& field) const {
        if (!json.is_number_integer()) {
            throw std::domain_error("an id is missing");
        }
        field.value = json.get<std::int64_t>();
    }
    template <class Enum>
    requires std::is_enum_v<Enum>
    void operator()(Enum& field) const {
        const auto text = json.get<std::string>();
        const std::optional<Enum> value = fromCode<Enum>(text);
        if (!value) {
            throw std::domain_error("the word \"" + text + "\" is not known");
        }
        field = *value;
    }
    template <class T>
    void operator()(std::optional<T>& field) const {
        field.reset();
        if (!json.is_null()) {
            take(json, field.emplace());
        }
    }
    template <class T>
    void operator()(std::vector<T>& fields) const {
        if (!json.is_array()) {
            throw std::domain_error("a list is missing");
        }
        fields.clear();
        fields.reserve(json.size());
        for (const Json& element : json) {
            take(element, fields.emplace_back());
        }
    }
    void operator()(Entered& field) const {
        field.number = member<double>(json, "number");
        field.unit = member<Unit>(json, "unit");
        field.text = member<std::string>(json, "text");
    }
    void operator()(BearingEntry& field) const {
        take(json, field.degrees);
        field.north = member<North>(json, "north");
    }
    void operator()(Place& field) const {
        if (json.is_null()) {
            field = std::monostate{};
        } else if (json.contains("lat")) {
            field = GeographicPoint{
                .latitude = member<double>(json, "lat"), .longitude = member<double>(json, "lon")};
        } else {
            field =
                Point{.east = member<double>(json, "east"), .north = member<double>(json, "north")};
        }
    }
    void operator()(CalibrationPair& field) const {
        field.turns = member<double>(json, "turns");
        field.distance = member<Entered>(json, "distance");
    }
    void operator()(Allowance& field) const {
        field.depthFrom = member<Entered>(json, "depth_from");
        field.depthTo = member<Entered>(json, "depth_to");
        field.add = member<Entered>(json, "add");
    }
    void operator()(LengthUsed& field) const {
        field.rod = member<std::string>(json, "rod");
        field.visit = member<std::optional<Id<Visit>>>(json, "visit");
        field.length = member<Entered>(json, "length");
    }
    void operator()(ShorePart& field) const {
        field.kind = member<ShoreKind>(json, "kind");
        field.level = member<std::optional<Entered>>(json, "level");
        field.vertices = member<std::vector<Place>>(json, "vertices");
    }
    void operator()(SpoolDimensions& field) const {
        field.fullDiameter = member<Entered>(json, "full_diameter");
        field.gearRatio = member<double>(json, "gear_ratio");
        field.lineDiameter = member<Entered>(json, "line_diameter");
        field.traverse = member<Entered>(json, "traverse");
        field.packing = member<double>(json, "packing");
    }
    void operator()(AimBasis& field) const;
    void operator()(SpotPlace& field) const;
    void operator()(LogContent& field) const;
};

void Taker::operator()(AimBasis& field) const {
    const auto by = member<std::string>(json, "by");
    if (by == "order") {
        field = AimWithoutAngle{};
    } else if (by == "mark") {
        field = AimAtMark{
            .mark = member<Id<Mark>>(json, "mark"),
            .offset = member<std::optional<Entered>>(json, "offset")};
    } else if (by == "bearing") {
        field = AimAtBearing{.bearing = member<BearingEntry>(json, "bearing")};
    } else if (by == "aim") {
        field = AimFromAim{
            .other = member<Id<Aim>>(json, "aim"), .offset = member<Entered>(json, "offset")};
    } else if (by == "clock") {
        field = AimAtClock{.hour = member<Entered>(json, "hour")};
    } else if (by == "left_of") {
        field = AimLeftOf{.other = member<Id<Aim>>(json, "aim")};
    } else {
        throw std::domain_error("the kind of aim \"" + by + "\" is not known");
    }
}

void Taker::operator()(SpotPlace& field) const {
    if (json.is_object() && json.contains("aim")) {
        field = OnAim{
            .aim = member<Id<Aim>>(json, "aim"), .lineOut = member<Entered>(json, "line_out")};
    } else {
        Place place;
        take(json, place);
        field = place;
    }
}

void Taker::operator()(LogContent& field) const {
    using Spotted = std::optional<Id<Spot>>;
    using Mass = std::optional<Entered>;
    const auto text = [this](const char* key) { return member<std::string>(json, key); };
    const std::string what = text("what");
    if (what == "rod_out") {
        field = RodOut{
            .rod = text("rod"),
            .spot = member<Spotted>(json, "spot"),
            .drop = member<std::optional<Drop>>(json, "drop"),
            .rig = text("rig"),
            .hookbait = text("hookbait")};
    } else if (what == "bait") {
        field = BaitPut{
            .loads = member<std::optional<double>>(json, "loads"),
            .mix = text("mix"),
            .mass = member<Mass>(json, "mass"),
            .spot = member<Spotted>(json, "spot")};
    } else if (what == "bite") {
        field = Bite{
            .rod = text("rod"),
            .spot = member<Spotted>(json, "spot"),
            .outcome = member<BiteOutcome>(json, "outcome"),
            .species = text("species"),
            .mass = member<Mass>(json, "mass"),
            .fish = text("fish")};
    } else if (what == "weather") {
        field = Weather{.words = text("words")};
    } else if (what == "shows") {
        field = Shows{.words = text("words")};
    } else if (what == "hearsay") {
        field = Hearsay{
            .who = text("who"), .trust = member<int>(json, "trust"), .words = text("words")};
    } else {
        throw std::domain_error("the kind of entry \"" + what + "\" is not known");
    }
}

template <class T>
void take(const Json& json, T& field) {
    Taker{json}(field);
}

/// The commonest JSON by far is a short list of plain words, one for each reading: read without
/// the library. None where it is anything else, or has a word that is not known.
template <class Enum>
std::optional<std::vector<Enum>> plainWords(std::string_view text) {
    std::vector<Enum> kinds;
    while (text.starts_with(kinds.empty() ? R"([")" : R"(,")")) {
        text.remove_prefix(2);
        const std::size_t end = text.find_first_of("\"\\");
        const std::optional<Enum> kind = fromCode<Enum>(text.substr(0, end));
        if (end == std::string_view::npos || text[end] != '"' || !kind) {
            return std::nullopt;
        }
        kinds.push_back(*kind);
        text.remove_prefix(end + 1);
    }
    return text == "]" && !kinds.empty() ? std::optional(std::move(kinds)) : std::nullopt;
}

} // namespace

template <StoredAsJson T>
Result<std::string> toJson(const T& field) {
    try {
        return put(field).dump();
    } catch (const std::exception& problem) {
        return fail(inputError(
            "This cannot be kept: a number in it is not finite, or its text is "
            "not readable (not UTF-8).",
            problem.what()));
    }
}

template <StoredAsJson T>
Result<T> fromJson(std::string_view text) {
    if constexpr (std::is_same_v<T, std::vector<OnLead>>) {
        if (std::optional<T> words = plainWords<OnLead>(text)) {
            return std::move(*words);
        }
    }
    try {
        T field{};
        take(Json::parse(text), field);
        return field;
    } catch (const nlohmann::json::exception& problem) {
        return fail(inputError("the text in it cannot be read", problem.what()));
    } catch (const std::exception& problem) {
        return fail(inputError(problem.what()));
    }
}

template Result<std::string> toJson(const SpoolDimensions&);
template Result<std::string> toJson(const AimBasis&);
template Result<std::string> toJson(const SpotPlace&);
template Result<std::string> toJson(const LogContent&);
template Result<std::string> toJson(const std::vector<ShorePart>&);
template Result<std::string> toJson(const std::vector<Place>&);
template Result<std::string> toJson(const std::vector<CalibrationPair>&);
template Result<std::string> toJson(const std::vector<Allowance>&);
template Result<std::string> toJson(const std::vector<LengthUsed>&);
template Result<std::string> toJson(const std::vector<OnLead>&);
template Result<SpoolDimensions> fromJson(std::string_view);
template Result<AimBasis> fromJson(std::string_view);
template Result<SpotPlace> fromJson(std::string_view);
template Result<LogContent> fromJson(std::string_view);
template Result<std::vector<ShorePart>> fromJson(std::string_view);
template Result<std::vector<Place>> fromJson(std::string_view);
template Result<std::vector<CalibrationPair>> fromJson(std::string_view);
template Result<std::vector<Allowance>> fromJson(std::string_view);
template Result<std::vector<LengthUsed>> fromJson(std::string_view);
template Result<std::vector<OnLead>> fromJson(std::string_view);

} // namespace bedlore
