// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/kinds.hpp"
#include "core/book/spot.hpp"
#include "core/book/visit.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

// What was done and what happened on a visit, line by line.

namespace bedlore {

struct RodOut {
    std::string rod;
    std::optional<Id<Spot>> spot;
    std::optional<Drop> drop;
    std::string rig;
    std::string hookbait;
    friend bool operator==(const RodOut&, const RodOut&) = default;
};
struct BaitPut {
    std::optional<double> loads;
    std::string mix;
    std::optional<Entered> mass;
    std::optional<Id<Spot>> spot;
    friend bool operator==(const BaitPut&, const BaitPut&) = default;
};
enum class BiteOutcome : std::uint8_t { Landed, Lost, Missed };
struct Bite {
    std::string rod;
    std::optional<Id<Spot>> spot;
    BiteOutcome outcome = BiteOutcome::Landed;
    std::string species;
    std::optional<Entered> mass;
    std::string fish;
    friend bool operator==(const Bite&, const Bite&) = default;
};
struct Weather {
    std::string words;
    friend bool operator==(const Weather&, const Weather&) = default;
};
struct Shows {
    std::string words;
    friend bool operator==(const Shows&, const Shows&) = default;
};
struct Hearsay {
    std::string who;
    int trust = 2; ///< 1 to 3
    std::string words;
    friend bool operator==(const Hearsay&, const Hearsay&) = default;
};

using LogContent = std::variant<RodOut, BaitPut, Bite, Weather, Shows, Hearsay>;

/// `minute` counts from midnight of the visit's date and runs on over the nights of a long visit.
struct LogEntry {
    Id<LogEntry> id;
    Id<Visit> visit;
    int order = 0;
    std::optional<int> minute;
    LogContent content;
    std::string text; ///< as typed
    friend bool operator==(const LogEntry&, const LogEntry&) = default;
};

} // namespace bedlore
