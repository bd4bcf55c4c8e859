// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

// What the typed lines of a notebook page mean. A pure function of the lines and of what the book
// was taught.

namespace bedlore {

/// An aim that says where it points, on any visit to a swim.
struct SaidAim {
    std::string swim;
    std::string label;
    friend bool operator==(const SaidAim&, const SaidAim&) = default;
};

/// What the reading of a page may lean on beside its own lines.
struct PageContext {
    std::vector<std::string> reels; ///< names of calibrated reels
    std::vector<std::string> marks; ///< names of the water's marks
    std::vector<std::string> swims; ///< names of the water's swims
    std::vector<SaidAim> aims;      ///< of the water's visits; only asked about, never relied on
    std::vector<Word> words;        ///< his own shorthand
    std::vector<Answer> answers;    ///< questions already answered
    friend bool operator==(const PageContext&, const PageContext&) = default;
};

/// A reading as typed, before it has a cast in a book. `castIndex` counts the throws of the page
/// from 0; readings of one throw follow each other.
struct ReadingDraft {
    std::size_t castIndex = 0;
    Reading reading; ///< ids and order empty
};

/// A throw as typed: the aim's label (empty for none) and the section of the page that it stands
/// in.
struct CastDraft {
    std::size_t section = 0;
    std::string aim;
    std::string reel; ///< the reel in force above it, empty for none
};

struct SpotDraft {
    std::size_t section = 0;
    std::string name;
    std::string aim;
    Entered lineOut;
    std::vector<LengthUsed> lengths;
    std::string note;
};

struct AimDraft {
    std::string label;
    std::string text; ///< the definition as typed
    /// What the text says, marks and other aims by name.
    struct AtMark {
        std::string mark;
        std::optional<Entered> offset;
    };
    struct AtBearing {
        BearingEntry bearing;
    };
    struct FromAim {
        std::string other;
        Entered offset;
    };
    struct AtClock {
        Entered hour;
    };
    struct LeftOf {
        std::string other;
    };
    struct WithoutAngle {};
    std::variant<WithoutAngle, AtMark, AtBearing, FromAim, AtClock, LeftOf> basis;
};

/// What one `swim` and `date` header and those after it say: the visit that the lines below belong
/// to. Ids are empty.
struct PageSection {
    std::string swim;
    std::optional<Date> date;
    std::optional<std::size_t> dateLine;  ///< counted from 0, of those that count
    std::optional<std::size_t> levelLine; ///< likewise
    Visit visit; ///< level, sticks, bare units, float rig, bearing source, tip height, note
    std::string reel;
    std::vector<AimDraft> aims;
};

/// An offer that mends a line with one key: the words shown and the line that it would
/// become, or the answer to remember.
struct LineOffer {
    std::string words;       ///< "yards?"
    std::string replacement; ///< the whole line as it would read; empty where only `answer` counts
    std::optional<Answer> answer;
    std::string above = {}; ///< a line that comes to stand above it; empty for none
};

/// What a line was taken to mean. `words` is what is shown beside it ("9 ft, gravel"); `unclear`
/// says what cannot be understood and is empty otherwise. `remark` is on a line that is understood
/// and counts, but that he may have meant otherwise. `offers` belong to either.
struct LineMeaning {
    LineKind kind = LineKind::Note;
    std::string words;
    std::string unclear;
    std::string remark;
    std::vector<LineOffer> offers;
    std::optional<std::size_t> draft; ///< into `PageMeaning::readings` or `spots`, by kind
};

struct PageMeaning {
    std::vector<LineMeaning> lines; ///< one for each line given
    std::vector<PageSection> sections;
    std::vector<CastDraft> casts;
    std::vector<ReadingDraft> readings;
    std::vector<SpotDraft> spots;
};

[[nodiscard]] PageMeaning readPage(std::span<const std::string> lines, const PageContext& context);

/// What the book has taught about reading a page of `water`.
[[nodiscard]] PageContext pageContext(const Book& book, Id<Water> water);

} // namespace bedlore
