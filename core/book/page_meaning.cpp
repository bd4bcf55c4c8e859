// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"

#include "core/book/page_header.hpp"
#include "core/book/page_reading.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

/// What is in force at a line: headers above it, and where its visit has none above, the first one
/// below.
struct InForce {
    std::size_t section = 0;
    std::optional<Unit> bareDistance;
    std::optional<Unit> bareDepth;
    std::string reel;
};

class PageReader {
public:
    PageReader(std::span<const std::string> lines, const PageContext& context)
        : lines_(lines)
        , context_(context) {
        result_.lines.resize(lines.size());
        inForce_.resize(lines.size());
    }

    PageMeaning run() {
        readHeaders();
        fillFromBelow();
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            readLine(i);
        }
        return std::move(result_);
    }

private:
    PageSection& section() { return result_.sections.back(); }

    /// First pass: sections and what bare numbers mean, so that a header counts for the whole of
    /// its visit.
    void readHeaders() {
        result_.sections.emplace_back();
        headers_.resize(lines_.size());
        InForce now;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            auto header = readHeader(lines_[i]);
            if (header && header->meaning.kind == LineKind::Header) {
                beginSectionIfNeeded(*header, now);
                putHeader(*header, now);
            } else if (header && header->aim) {
                putAim(*header->aim);
            } else if (!header && !trimmedText(lines_[i]).empty()) {
                hasText_ = true;
            }
            if (header) {
                result_.lines[i] = header->meaning;
                headers_[i] = true;
            }
            now.section = result_.sections.size() - 1;
            inForce_[i] = now;
        }
    }

    /// A second swim, or a second date below readings, is another visit. It keeps how numbers are
    /// written, not the day's level.
    void beginSectionIfNeeded(const HeaderLine& header, InForce& now) {
        const bool swim = header.key == HeaderLine::Key::Swim && !section().swim.empty();
        const bool date =
            header.key == HeaderLine::Key::Day && section().date.has_value() && hasText_;
        if (!swim && !date) {
            return;
        }
        PageSection next;
        next.visit.sticks = section().visit.sticks;
        next.visit.wrapCounts = section().visit.wrapCounts;
        next.visit.floatRig = section().visit.floatRig;
        next.visit.bareDistance = now.bareDistance;
        next.visit.bareDepth = now.bareDepth;
        next.visit.bearingSource = section().visit.bearingSource;
        next.reel = now.reel;
        if (date) {
            next.swim = section().swim;
            next.aims = section().aims;
            next.visit.tipHeight = section().visit.tipHeight;
        }
        result_.sections.push_back(std::move(next));
        hasText_ = false;
    }

    void putAim(const AimDraft& aim) {
        auto& aims = section().aims;
        const auto same = std::find_if(aims.begin(), aims.end(), [&](const AimDraft& other) {
            return other.label == aim.label;
        });
        if (same == aims.end()) {
            aims.push_back(aim);
        } else {
            *same = aim;
        }
    }

    void putHeader(const HeaderLine& header, InForce& now) {
        using Key = HeaderLine::Key;
        Visit& visit = section().visit;
        switch (header.key) {
        case Key::Swim:
            section().swim = header.text;
            break;
        case Key::Day:
            section().date = header.date;
            break;
        case Key::Level:
            visit.level = header.measure;
            break;
        case Key::Sticks:
            visit.sticks = header.measure;
            visit.wrapCounts = header.wrapCounts;
            break;
        case Key::Reel:
            section().reel = header.text;
            now.reel = header.text;
            break;
        case Key::Distances:
            visit.bareDistance = header.unit;
            now.bareDistance = header.unit;
            break;
        case Key::Depths:
            visit.bareDepth = header.unit;
            now.bareDepth = header.unit;
            break;
        case Key::Float:
            visit.floatRig = header.rig;
            break;
        case Key::Aim:
            putAim(*header.aim);
            break;
        case Key::Tip:
            visit.tipHeight = header.measure;
            break;
        case Key::Bearings:
            visit.bearingSource = header.source;
            break;
        case Key::Note:
            visit.note += (visit.note.empty() ? "" : "\n") + header.text;
            break;
        }
    }

    /// Second pass, upwards: lines above the first header of their visit take that one.
    void fillFromBelow() {
        for (std::size_t i = lines_.size(); i-- > 1;) {
            InForce& above = inForce_[i - 1];
            const InForce& below = inForce_[i];
            if (above.section != below.section) {
                continue;
            }
            if (!above.bareDistance) {
                above.bareDistance = below.bareDistance;
            }
            if (!above.bareDepth) {
                above.bareDepth = below.bareDepth;
            }
            if (above.reel.empty()) {
                above.reel = below.reel;
            }
        }
    }

    void readLine(std::size_t i) {
        const std::string_view text = trimmedText(lines_[i]);
        LineMeaning& meaning = result_.lines[i];
        if (text.empty()) {
            meaning.kind = LineKind::Blank;
            castOpen_ = false;
            return;
        }
        if (headers_[i]) {
            return;
        }
        const InForce& now = inForce_[i];
        if (now.section != sectionNow_) {
            sectionNow_ = now.section;
            castOpen_ = false;
            aimNow_.clear();
        }
        if (readSpot(text, now, meaning)) {
            return;
        }
        const ReadingRules rules{
            .context = context_,
            .section = result_.sections[now.section],
            .bareDistance = now.bareDistance,
            .bareDepth = now.bareDepth,
            .reel = now.reel};
        ReadingLine line = readReadingLine(text, rules);
        meaning = std::move(line.meaning);
        if (meaning.kind == LineKind::Reading) {
            addReading(std::move(line), now, meaning);
        } else if (meaning.kind == LineKind::Unclear && !line.aim.empty()) {
            // What follows belongs to that aim, whatever the line itself turns out to be.
            aimNow_ = line.aim;
            castOpen_ = false;
        }
    }

    void addReading(ReadingLine line, const InForce& now, LineMeaning& meaning) {
        const PageSection& section = result_.sections[now.section];
        Reading& reading = line.reading;
        const bool nearer = reading.mode == DistanceMode::NearerThanLast;
        if (nearer && (!castOpen_ || line.newCast)) {
            meaning.kind = LineKind::Unclear;
            meaning.words.clear();
            meaning.unclear = "nearer than what? There is no place above it on this cast.";
            return;
        }
        const double from = nearer ? place_ - roughMetres(reading.from, section)
                                   : roughMetres(reading.from, section);
        // A stretch may begin where the last reading was, and a point may stand at the end of a
        // stretch.
        const bool touching = reading.to.has_value() || lastWasStretch_;
        const bool farther = from > place_ + 1e-6;
        const bool same = std::abs(from - place_) <= 1e-6;
        const bool otherAim = !line.aim.empty() && line.aim != aimNow_;
        const bool begins =
            !castOpen_ || line.newCast || otherAim || (!nearer && (farther || (same && !touching)));
        if (!line.aim.empty()) {
            aimNow_ = line.aim;
        }
        if (begins) {
            result_.casts.push_back({.section = now.section, .aim = aimNow_, .reel = now.reel});
        }
        castOpen_ = true;
        lastWasStretch_ = reading.to.has_value();
        place_ = reading.to ? roughMetres(*reading.to, section) : from;
        meaning.draft = result_.readings.size();
        result_.readings.push_back(
            {.castIndex = result_.casts.size() - 1, .reading = std::move(reading)});
    }

    /// "PINE = A 26¾ / rods 26¾ spod 26"
    bool readSpot(std::string_view text, const InForce& now, LineMeaning& meaning) {
        const auto equals = text.find(" = ");
        if (equals == std::string_view::npos) {
            return false;
        }
        const std::string_view name = trimmedText(text.substr(0, equals));
        const std::string_view rest = trimmedText(text.substr(equals + 3));
        const auto stroke = rest.find(" / ");
        const auto words = splitWords(rest.substr(0, std::min(stroke, rest.size())));
        const PageSection& section = result_.sections[now.section];
        if (words.size() < 2 || !isAimLabel(words[0], section) || name.empty()) {
            return false;
        }
        SpotDraft spot{
            .section = now.section,
            .name = std::string(name),
            .aim = words[0],
            .lineOut = {},
            .lengths = {}};
        std::string distance = words[1];
        for (std::size_t i = 2; i < words.size(); ++i) {
            distance += " " + words[i];
        }
        const auto bare = now.bareDistance;
        const auto length = readDistance(distance, bare);
        if (!length) {
            meaning.kind = LineKind::Unclear;
            meaning.unclear = "\"" + distance + "\" is not a distance" +
                              (bare ? "." : " until a line such as \"distances wraps\" is there.");
            return true;
        }
        spot.lineOut = *length;
        meaning.kind = LineKind::Spot;
        meaning.words = "spot " + spot.name + ": aim " + spot.aim + ", " + printEntered(*length);
        if (stroke != std::string_view::npos) {
            readLengths(rest.substr(stroke + 3), bare, spot, meaning);
        }
        if (meaning.kind == LineKind::Spot) {
            meaning.draft = result_.spots.size();
            result_.spots.push_back(std::move(spot));
        }
        return true;
    }

    /// "rods 26¾ spod 26"
    static void readLengths(
        std::string_view text, std::optional<Unit> bare, SpotDraft& spot, LineMeaning& meaning) {
        std::string rod;
        for (const std::string& word : splitWords(text)) {
            const auto length = readDistance(word, bare);
            if (length && !rod.empty()) {
                spot.lengths.push_back({.rod = rod, .visit = {}, .length = *length});
                meaning.words += ", " + rod + " " + printEntered(*length);
                rod.clear();
            } else {
                rod += (rod.empty() ? "" : " ") + word;
            }
        }
        if (!rod.empty()) {
            meaning.kind = LineKind::Unclear;
            meaning.words.clear();
            meaning.unclear = "the length of \"" + rod + "\" is missing or not a distance.";
        }
    }

    std::span<const std::string> lines_;
    const PageContext& context_;
    PageMeaning result_;
    std::vector<InForce> inForce_;
    std::vector<bool> headers_;
    bool hasText_ = false;
    std::size_t sectionNow_ = 0;
    bool castOpen_ = false;
    bool lastWasStretch_ = false;
    double place_ = 0.0; ///< [m] of line, roughly: the last place on the open cast
    std::string aimNow_;
};

} // namespace

PageMeaning readPage(std::span<const std::string> lines, const PageContext& context) {
    return PageReader(lines, context).run();
}

PageContext pageContext(const Book& book, Id<Water> water) {
    PageContext context;
    for (const Reel& reel : book.all<Reel>()) {
        if (reel.spool || !reel.calibration.empty()) {
            context.reels.push_back(reel.name);
        }
    }
    for (const Mark& mark : book.all<Mark>()) {
        if (mark.water == water) {
            context.marks.push_back(mark.name);
        }
    }
    context.words.assign(book.all<Word>().begin(), book.all<Word>().end());
    context.answers.assign(book.all<Answer>().begin(), book.all<Answer>().end());
    return context;
}

} // namespace bedlore
