// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit.hpp"
#include "core/reduction/reduction.hpp"

#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>

// A small book built line by line, for the tests of what notes become.

namespace bedlore::testing {

inline Entered ft(double number) {
    return {number, Unit::Foot, std::to_string(number) + " ft"};
}
inline Entered m(double number) {
    return {number, Unit::Metre, std::to_string(number) + " m"};
}
inline Entered wraps(double number) {
    return {number, Unit::Wrap, std::to_string(number) + "w"};
}
inline Entered turns(double number) {
    return {number, Unit::Turn, std::to_string(number) + "t"};
}
inline Entered degrees(double number) {
    return {number, Unit::Degree, std::to_string(number)};
}

inline DepthEntry depthOf(Entered value) {
    return {.value = std::move(value)};
}
inline DepthEntry pulls(double number) {
    return {
        .value = {number, Unit::Pull, std::to_string(number) + "p"},
        .method = DepthMethod::FloatPulls};
}

/// Every record gets its id here; `change` of a record fills the rest of it.
class NoteBook {
public:
    explicit NoteBook(std::int64_t firstId = 1)
        : ids_(firstId) {
        water = add(Water{.name = "Harl Pit"});
    }

    template <class Record>
    Id<Record> add(Record record) {
        record.id = ids_.take<Record>();
        const Id<Record> id = record.id;
        book.all<Record>().put(std::move(record));
        return id;
    }
    template <class Record>
    void change(Id<Record> id, const std::function<void(Record&)>& how) {
        Record record = book.get(id);
        how(record);
        book.all<Record>().put(std::move(record));
    }

    Id<Swim> swim(const std::string& name, Place place, std::optional<Entered> tip = m(2.0)) {
        return add(Swim{.water = water, .name = name, .place = place, .tipHeight = tip});
    }
    Id<Visit> visit(Id<Swim> swim, int month, int day, std::optional<Entered> level = {}) {
        using namespace std::chrono;
        const Date date{
            year{2025},
            std::chrono::month{static_cast<unsigned>(month)},
            std::chrono::day{static_cast<unsigned>(day)}};
        return add(Visit{.swim = swim, .date = date, .level = level, .sticks = ft(12.0)});
    }
    /// A throw at a bearing in the plane.
    Id<Cast> cast(Id<Visit> visit, double gridDegrees, int order = 1) {
        return add(Cast{
            .visit = visit,
            .order = order,
            .bearing = BearingEntry{degrees(gridDegrees), North::Grid}});
    }
    Id<Reading>
    reading(Id<Cast> cast, Entered from, std::optional<DepthEntry> depth = {}, int order = 0) {
        return add(Reading{
            .cast = cast,
            .order = order == 0 ? ++order_ : order,
            .from = std::move(from),
            .depth = std::move(depth)});
    }

    [[nodiscard]] Reduction reduced(std::optional<Id<Swim>> alone = {}) const {
        return reduce(book, {.water = water, .alone = alone}).value();
    }

    Book book;
    Id<Water> water;

private:
    IdSource ids_;
    int order_ = 0;
};

/// The first notice whose sentence holds `words`; null where there is none.
inline const ReductionNotice* noticeWith(const Reduction& reduction, const std::string& words) {
    for (const ReductionNotice& notice : reduction.notices) {
        if (notice.sentence.find(words) != std::string::npos) {
            return &notice;
        }
    }
    return nullptr;
}

/// By its reading; there must be one.
inline const Sounding& soundingOf(const Reduction& reduction, Id<Reading> reading) {
    for (const Sounding& sounding : reduction.soundings) {
        if (sounding.source == std::variant<Id<Reading>, FixRow>(reading)) {
            return sounding;
        }
    }
    throw std::runtime_error("no such sounding");
}
inline const PlacedReading& placedOf(const Reduction& reduction, Id<Reading> reading) {
    for (const PlacedReading& placed : reduction.readings) {
        if (placed.reading == reading) {
            return placed;
        }
    }
    throw std::runtime_error("no such reading");
}

} // namespace bedlore::testing
