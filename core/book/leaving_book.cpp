// SPDX-License-Identifier: MIT
#include "core/book/leaving_book.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/fields.hpp"

#include <algorithm>
#include <cctype>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace bedlore {

namespace {

char lower(char c) {
    return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}

/// Whether a word goes on at `c`; any letter beyond ASCII counts as one.
bool isOfAWord(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80U || std::isalnum(byte) != 0;
}

/// Where `name` stands in `text` from `from` on as words of its own.
std::optional<std::size_t>
findName(std::string_view text, std::string_view name, std::size_t from) {
    while (from < text.size()) {
        const auto found = std::search(
            text.begin() + static_cast<std::ptrdiff_t>(from),
            text.end(),
            name.begin(),
            name.end(),
            [](char a, char b) { return lower(a) == lower(b); });
        if (found == text.end()) {
            return std::nullopt;
        }
        const auto at = static_cast<std::size_t>(found - text.begin());
        const std::size_t end = at + name.size();
        const bool begins = at == 0 || !isOfAWord(text[at - 1]) || !isOfAWord(name.front());
        const bool ends = end == text.size() || !isOfAWord(text[end]) || !isOfAWord(name.back());
        if (begins && ends) {
            return at;
        }
        from = at + 1;
    }
    return std::nullopt;
}

using Names = std::vector<std::string>;

bool namesAny(std::string_view text, const Names& names) {
    return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
        return findName(text, name, 0).has_value();
    });
}

/// Puts an ellipsis for every name in every text of a field, however deep it sits.
struct NameHider {
    const Names& names;

    void operator()(std::string& text) const {
        constexpr std::string_view ellipsis = "…";
        for (const std::string& name : names) {
            for (auto at = findName(text, name, 0); at;
                 at = findName(text, name, *at + ellipsis.size())) {
                text.replace(*at, name.size(), ellipsis);
            }
        }
    }
    template <class T>
    void operator()(std::optional<T>& field) const {
        if (field) {
            (*this)(*field);
        }
    }
    template <class T>
    void operator()(std::vector<T>& fields) const {
        for (T& field : fields) {
            (*this)(field);
        }
    }
    template <class... Ts>
    void operator()(std::variant<Ts...>& field) const {
        std::visit(*this, field);
    }
    void operator()(LevelReference& field) const { (*this)(field.words); }
    void operator()(LengthUsed& field) const { (*this)(field.rod); }
    void operator()(RodOut& field) const { each(field.rod, field.rig, field.hookbait); }
    void operator()(BaitPut& field) const { (*this)(field.mix); }
    void operator()(Bite& field) const { each(field.rod, field.species, field.fish); }
    void operator()(Weather& field) const { (*this)(field.words); }
    void operator()(Shows& field) const { (*this)(field.words); }
    void operator()(Hearsay& field) const { each(field.who, field.words); }
    template <class T>
    void operator()(T&) const {}

private:
    template <class... Texts>
    void each(Texts&... texts) const {
        ((*this)(texts), ...);
    }
};

/// A text that is no words of his, or that others go by.
template <class Record>
bool staysAsItIs(std::string_view field) {
    const bool isPlaceName = std::is_same_v<Record, Water> || std::is_same_v<Record, Swim>;
    return field == "sha256" || field == "media_type" || (isPlaceName && field == "name");
}

class Leaver {
public:
    explicit Leaver(const Book& book)
        : from_(book)
        , book_(book) {}

    Book run() {
        for (const Spot& spot : from_.all<Spot>()) {
            takeOut(spot);
        }
        for (const Mark& mark : from_.all<Mark>()) {
            takeOut(mark);
        }
        for (const Photo& photo : from_.all<Photo>()) {
            if (photo.isPrivate || isGone(photo.mark)) {
                book_.all<Photo>().remove(photo.id);
            }
        }
        // The longest first: a name may be a part of another.
        std::stable_sort(
            names_.begin(), names_.end(), [](const std::string& one, const std::string& other) {
                return one.size() > other.size();
            });
        changeEach<Aim>([this](Aim& aim) { unpoint(aim); });
        changeEach<Spot>([this](Spot& spot) { unpoint(spot); });
        changeEach<LogEntry>([this](LogEntry& entry) { unpoint(entry); });
        takeOutLines();
        hideNames(AllRecords{});
        return std::move(book_);
    }

private:
    template <class Record>
    void takeOut(const Record& record) {
        if (record.isPrivate) {
            book_.all<Record>().remove(record.id);
            if (!record.name.empty()) {
                names_.push_back(record.name);
            }
        }
    }

    template <class Record>
    [[nodiscard]] bool isGone(Id<Record> id) const {
        return book_.find(id) == nullptr;
    }
    template <class Record>
    [[nodiscard]] bool isGone(const std::optional<Id<Record>>& id) const {
        return id && isGone(*id);
    }

    template <class Record, class Changer>
    void changeEach(const Changer& changeOne) {
        for (const Record& record : Table<Record>(book_.all<Record>())) {
            Record changed = record;
            changeOne(changed);
            if (!(changed == record)) {
                book_.all<Record>().put(std::move(changed));
            }
        }
    }

    void unpoint(Aim& aim) const {
        const auto* atMark = std::get_if<AimAtMark>(&aim.basis);
        if (atMark != nullptr && isGone(atMark->mark)) {
            aim.basis = AimWithoutAngle{};
        }
    }
    void unpoint(Spot& spot) const {
        if (isGone(spot.dayMark)) {
            spot.dayMark.reset();
            spot.dayOffset.reset();
        }
        if (isGone(spot.nightMark)) {
            spot.nightMark.reset();
            spot.nightOffset.reset();
        }
    }
    void unpoint(LogEntry& entry) const {
        const auto unpointSpot = [this](auto& content) {
            if constexpr (requires { content.spot; }) {
                if (isGone(content.spot)) {
                    content.spot.reset();
                }
            }
        };
        std::visit(unpointSpot, entry.content);
    }

    void takeOutLines() {
        for (const PageLine& line : from_.all<PageLine>()) {
            const bool isOfOne = isGone(line.spot);
            if (line.kind == LineKind::Spot && (isOfOne || namesAny(line.text, names_))) {
                book_.all<PageLine>().remove(line.id);
            } else if (isOfOne) {
                PageLine changed = line;
                changed.spot.reset();
                book_.all<PageLine>().put(std::move(changed));
            }
        }
    }

    template <class... Records>
    void hideNames(RecordTypes<Records...>) {
        (hideNamesIn<Records>(), ...);
    }
    template <class Record>
    void hideNamesIn() {
        changeEach<Record>([this](Record& record) {
            visitFields(record, [this](std::string_view name, auto& field) {
                if (!staysAsItIs<Record>(name)) {
                    NameHider{names_}(field);
                }
            });
        });
    }

    const Book& from_;
    Book book_;
    Names names_; ///< of what is gone
};

template <class Record>
std::size_t countPrivate(const Book& book) {
    const auto& all = book.all<Record>();
    return static_cast<std::size_t>(std::count_if(
        all.begin(), all.end(), [](const Record& record) { return record.isPrivate; }));
}

} // namespace

PrivateCounts privateThingsIn(const Book& book) {
    PrivateCounts counts{.spots = countPrivate<Spot>(book), .marks = countPrivate<Mark>(book)};
    for (const Photo& photo : book.all<Photo>()) {
        const Mark* mark = book.find(photo.mark);
        counts.photos += photo.isPrivate || (mark != nullptr && mark->isPrivate) ? 1U : 0U;
    }
    return counts;
}

std::string privateWords(const PrivateCounts& counts) {
    std::string words;
    const auto say = [&](std::size_t count, const std::string& one) {
        if (count > 0) {
            words += (words.empty() ? "" : ", ") + std::to_string(count) + " private " + one +
                     (count == 1 ? "" : "s");
        }
    };
    say(counts.spots, "spot");
    say(counts.marks, "mark");
    say(counts.photos, "photo");
    return words;
}

Book withoutPrivateThings(const Book& book) {
    return privateThingsIn(book).isNone() ? book : Leaver(book).run();
}

} // namespace bedlore
