// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"

#include "core/book/page_aim.hpp"
#include "core/book/page_header.hpp"
#include "core/book/page_measures.hpp"
#include "core/book/page_reading.hpp"
#include "core/book/page_remarks.hpp"
#include "core/book/page_spot.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <set>
#include <string>
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

/// The name of a swim or a reel on a line that was taken for prose.
struct Doubted {
    HeaderLine::Key key = HeaderLine::Key::Swim;
    std::string name;
};

class PageReader {
public:
    PageReader(std::span<const std::string> lines, const PageContext& context)
        : lines_(lines)
        , context_(context) {
        result_.lines.resize(lines.size());
        inForce_.resize(lines.size());
    }

    /// Swims and reels that a line of the page names and another, taken for prose, only mentions:
    /// none where each line was read as it would be with the names known. After `readHeaders`.
    [[nodiscard]] std::vector<Doubted> namesDoubted() const {
        std::vector<Doubted> names;
        std::copy_if(
            doubted_.begin(), doubted_.end(), std::back_inserter(names), [&](const Doubted& one) {
                const bool swim = one.key == HeaderLine::Key::Swim;
                return (swim ? swimsNamed_ : reelsNamed_).contains(lowered(one.name));
            });
        return names;
    }

    /// After `readHeaders`.
    PageMeaning run() {
        fillFromBelow();
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            readLine(i);
        }
        checkAims();
        return std::move(result_);
    }

    /// First pass: sections and what bare numbers mean, so that a header counts for the whole of
    /// its visit.
    void readHeaders() {
        result_.sections.emplace_back();
        headers_.resize(lines_.size());
        InForce now;
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            auto header = readHeader(lines_[i]);
            if (header && isProse(*header, i, now)) {
                doubted_.push_back({.key = header->key, .name = header->text});
                header.reset();
            }
            if (header && header->meaning.kind == LineKind::Header) {
                beginSectionIfNeeded(*header, now);
                putHeader(*header, now, i);
            } else if (header && header->aim) {
                putAim(*header->aim, i);
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

private:
    PageSection& section() { return result_.sections.back(); }

    static bool isAmong(const std::vector<std::string>& names, const std::string& name) {
        return std::any_of(names.begin(), names.end(), [&](const std::string& one) {
            return lowered(one) == lowered(name);
        });
    }

    /// Whether a line that could name a swim or a reel only goes on about one ("swim next door had
    /// two"): a known name, a short one in capitals, or a swim with its date below does not.
    [[nodiscard]] bool isProse(const HeaderLine& header, std::size_t line, const InForce& now) {
        const bool swim = header.key == HeaderLine::Key::Swim;
        const bool reel = header.key == HeaderLine::Key::Reel;
        if (!swim && !reel) {
            return false;
        }
        const bool isKnown = isAmong(swim ? context_.swims : context_.reels, header.text);
        const bool first = swim ? section().swim.empty() : now.reel.empty();
        const auto words = splitWords(header.text);
        if (isKnown || words.empty() || (swim && (first || dateFollows(line)))) {
            return false;
        }
        constexpr std::array<std::string_view, 8> verbs{
            "is", "was", "has", "had", "not", "next", "went", "still"};
        const bool isSentence =
            std::find(verbs.begin(), verbs.end(), lowered(words[0])) != verbs.end();
        const bool isLower = words[0][0] >= 'a' && words[0][0] <= 'z' && words[0] != "the";
        return isSentence || words.size() > 3 || (isLower && !first);
    }

    [[nodiscard]] bool dateFollows(std::size_t line) const {
        for (std::size_t i = line + 1; i < std::min(line + 4, lines_.size()); ++i) {
            const auto header = readHeader(lines_[i]);
            if (header && header->key == HeaderLine::Key::Day) {
                return true;
            }
        }
        return false;
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

    void putAim(const AimDraft& aim, std::size_t line) {
        aimLines_.push_back({line, result_.sections.size() - 1});
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

    /// Last, when it is known which labels the readings use: aims that hang on nothing have no
    /// angle, and their lines say so.
    void checkAims() {
        std::vector<std::set<std::string>> used(result_.sections.size());
        for (const CastDraft& cast : result_.casts) {
            used[cast.section].insert(cast.aim);
        }
        for (std::size_t i = 0; i < result_.sections.size(); ++i) {
            auto& aims = result_.sections[i].aims;
            preferAimsToMarks(aims);
            std::vector<AimDraft> sound = aims;
            for (AimDraft& aim : sound) {
                if (const auto fault = aimFault(aim, aims, used[i])) {
                    markAim(aim.label, i, *fault);
                    aim.basis = AimDraft::WithoutAngle{};
                }
            }
            aims = std::move(sound);
        }
    }

    void markAim(const std::string& label, std::size_t section, const std::string& fault) {
        for (const AimAt& at : aimLines_) {
            const auto header = readHeader(lines_[at.line]);
            if (at.section == section && header && header->aim && header->aim->label == label) {
                setUnclear(result_.lines[at.line], fault);
            }
        }
    }

    void putHeader(const HeaderLine& header, InForce& now, std::size_t line) {
        using Key = HeaderLine::Key;
        Visit& visit = section().visit;
        switch (header.key) {
        case Key::Swim:
            section().swim = header.text;
            swimsNamed_.insert(lowered(header.text));
            break;
        case Key::Day:
            section().date = header.date;
            section().dateLine = line;
            break;
        case Key::Level:
            visit.level = header.measure;
            section().levelLine = line;
            break;
        case Key::Sticks:
            visit.sticks = header.measure;
            visit.wrapCounts = header.wrapCounts;
            break;
        case Key::Reel:
            section().reel = header.text;
            now.reel = header.text;
            reelsNamed_.insert(lowered(header.text));
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
            putAim(*header.aim, line);
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
            usedAims_.clear();
        }
        const ReadingRules rules{
            .context = context_,
            .section = result_.sections[now.section],
            .bareDistance = now.bareDistance,
            .bareDepth = now.bareDepth,
            .reel = now.reel,
            .usedAims = &usedAims_};
        if (auto spot = readSpotLine(text, rules)) {
            addSpot(std::move(*spot), now, meaning);
            return;
        }
        ReadingLine line = readReadingLine(text, rules);
        meaning = std::move(line.meaning);
        if (meaning.kind == LineKind::Reading) {
            addReading(std::move(line), now, meaning);
        } else if (meaning.kind == LineKind::Unclear) {
            // What follows belongs to that aim and cast, whatever the line turns out to be, and
            // cannot be counted from a place that nobody knows.
            placeKnown_ = false;
            if (!line.aim.empty()) {
                setAim(line.aim);
                castOpen_ = false;
            }
        }
    }

    void setAim(const std::string& aim) {
        aimNow_ = aim;
        usedAims_.insert(aim);
    }

    void addSpot(SpotLine spot, const InForce& now, LineMeaning& meaning) {
        meaning = std::move(spot.meaning);
        if (meaning.kind == LineKind::Spot) {
            meaning.draft = result_.spots.size();
            spot.spot.section = now.section;
            result_.spots.push_back(std::move(spot.spot));
        }
    }

    static void setUnclear(LineMeaning& meaning, std::string what) {
        meaning.kind = LineKind::Unclear;
        meaning.words.clear();
        meaning.unclear = std::move(what);
    }

    /// Whether a reading `from` metres out is on a cast of its own.
    [[nodiscard]] bool beginsCast(const ReadingLine& line, const InForce& now, double from) const {
        const bool otherAim = !line.aim.empty() && line.aim != aimNow_;
        if (!castOpen_ || line.newCast || otherAim || now.reel != reelNow_) {
            return true;
        }
        // A stretch may begin where the last reading was, and a point may stand at the end of a
        // stretch.
        const bool touching = line.reading.to.has_value() || lastWasStretch_;
        const bool farther = from > place_ + 1e-6;
        const bool same = std::abs(from - place_) <= 1e-6;
        const bool nearer = line.reading.mode == DistanceMode::NearerThanLast;
        return !nearer && (farther || (same && !touching));
    }

    void addReading(ReadingLine line, const InForce& now, LineMeaning& meaning) {
        const PageSection& section = result_.sections[now.section];
        Reading& reading = line.reading;
        const bool nearer = reading.mode == DistanceMode::NearerThanLast;
        if (nearer && (!castOpen_ || line.newCast || (!line.aim.empty() && line.aim != aimNow_))) {
            setUnclear(meaning, "nearer than what? There is no place above it on this cast.");
            placeKnown_ = false;
            return;
        }
        if (nearer && !placeKnown_) {
            setUnclear(meaning, "nearer than what? The place above it is not clear yet.");
            return;
        }
        const double from = nearer ? place_ - roughMetres(reading.from, section)
                                   : roughMetres(reading.from, section);
        if (from <= 0.0) {
            setUnclear(meaning, "nearer than the rod tip: more was wound in than was out.");
            placeKnown_ = false;
            return;
        }
        const bool begins = beginsCast(line, now, from);
        if (!line.aim.empty()) {
            setAim(line.aim);
        }
        if (begins) {
            result_.casts.push_back({.section = now.section, .aim = aimNow_, .reel = now.reel});
        }
        castOpen_ = true;
        placeKnown_ = true;
        reelNow_ = now.reel;
        lastWasStretch_ = reading.to.has_value();
        place_ = reading.to ? roughMetres(*reading.to, section) : from;
        meaning.draft = result_.readings.size();
        result_.readings.push_back(
            {.castIndex = result_.casts.size() - 1, .reading = std::move(reading)});
    }

    std::span<const std::string> lines_;
    const PageContext& context_;
    PageMeaning result_;
    std::vector<InForce> inForce_;
    std::vector<bool> headers_;
    std::set<std::string> swimsNamed_; ///< in small letters
    std::set<std::string> reelsNamed_;
    std::vector<Doubted> doubted_;
    struct AimAt {
        std::size_t line = 0;
        std::size_t section = 0;
    };
    std::vector<AimAt> aimLines_;
    bool hasText_ = false;
    std::size_t sectionNow_ = 0;
    bool castOpen_ = false;
    bool placeKnown_ = false; ///< the line above says where the lead was
    bool lastWasStretch_ = false;
    std::string reelNow_; ///< of the open cast
    double place_ = 0.0;  ///< [m] of line, roughly: the last place on the open cast
    std::string aimNow_;
    std::set<std::string, std::less<>> usedAims_; ///< by readings of this section so far
};

/// A name that the page itself gives is known on all of it, also above: it must mean the same
/// when the book has learned it from the page.
PageMeaning meaningOf(std::span<const std::string> lines, const PageContext& context) {
    std::optional<PageContext> wider;
    while (true) { // each turn knows a name more than the last, and a page has few
        PageReader reader(lines, wider ? *wider : context);
        reader.readHeaders();
        const std::vector<Doubted> doubted = reader.namesDoubted();
        if (doubted.empty()) {
            return reader.run();
        }
        if (!wider) {
            wider = context;
        }
        for (const Doubted& one : doubted) {
            const bool swim = one.key == HeaderLine::Key::Swim;
            (swim ? wider->swims : wider->reels).push_back(one.name);
        }
    }
}

} // namespace

PageMeaning readPage(std::span<const std::string> lines, const PageContext& context) {
    PageMeaning meaning = meaningOf(lines, context);
    askAboutSlips(lines, meaning);
    remarkOnUnsaidAims(lines, context, meaning);
    remarkOnNoDepth(lines, meaning);
    remarkOnGreatDepth(lines, meaning);
    return meaning;
}

} // namespace bedlore
