// SPDX-License-Identifier: MIT
#include "gui/document/bed_builder.hpp"
#include "tests/gui/document/page_header.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <memory>
#include <random>
#include <string>
#include <vector>

// The same book gives the same map, whatever was done and undone on the way to it.

namespace bedlore {
namespace {

using testing::newBook;
using testing::openBook;
using testing::pageHeader;
using testing::TempFolder;
using testing::waitUntilIdle;

using Lines = std::vector<std::string>;

struct Desk {
    std::uint32_t seed = 0;
    std::size_t pages = 1;

    friend void PrintTo(const Desk& desk, std::ostream* out) {
        *out << "seed " << desk.seed << ", pages " << desk.pages;
    }
};

/// Where the swims of the pages lie, so that two of them share one bed.
constexpr std::array<Point, 2> tips{Point{0.0, 0.0}, Point{35.0, -4.0}};

/// Six aims with six depths each, over a bar: enough for a bed that is followed line by line.
Lines firstLines(std::size_t page) {
    Lines lines = pageHeader();
    if (page == 1) {
        lines[0] = "swim the Bay";
        lines[1] = "date 2025-05-03";
    }
    for (const char* aim : {"A = 335", "B = 341", "C = 347", "D = 353", "E = 359", "F = 5"}) {
        lines.push_back(std::string("aim ") + aim + " true");
    }
    for (const char aim : std::string("ABCDEF")) {
        for (int wraps = 34; wraps >= 24; wraps -= 2) {
            const int depth = 12 - (wraps == 28 ? 4 : 0) - (wraps == 26 ? 2 : 0) + aim % 2;
            const std::string line = std::to_string(wraps) + " " + std::to_string(depth);
            lines.push_back(wraps == 34 ? std::string(1, aim) + " " + line : line);
        }
    }
    return lines;
}

/// Puts the swim of the page on the water's plane.
void placeSwim(Document& document, std::size_t page) {
    const auto book = document.book();
    const Swim* swim =
        findSwim(*book, book->all<Water>().begin()->id, page == 0 ? "the Point" : "the Bay");
    ASSERT_NE(swim, nullptr);
    Swim placed = *swim;
    placed.place = tips[page];
    ASSERT_TRUE(document.apply("placed a swim", {Put<Swim>{placed}}));
}

std::shared_ptr<const BedMap> shownMap(Document& document, JobBoard& jobs, BedBuilder& builder) {
    const auto book = document.book();
    builder.show(
        {.water = book->all<Water>().begin()->id,
         .swim = findSwim(*book, book->all<Water>().begin()->id, "the Point")->id});
    EXPECT_TRUE(waitUntilIdle(jobs));
    EXPECT_TRUE(builder.isCurrent());
    return builder.map();
}

/// Somebody who types, changes his mind and takes back, with the map following.
class Editing {
public:
    explicit Editing(const Desk& desk)
        : random_(desk.seed) {
        for (std::size_t page = 0; page < desk.pages; ++page) {
            sessions_.emplace_back(*document_);
            sessions_.back().begin(std::nullopt);
            EXPECT_TRUE(sessions_.back().keep(firstLines(page)));
            placeSwim(*document_, page);
        }
        shownMap(*document_, jobs_, builder_);
    }

    void edit() {
        const std::size_t kind = below(6);
        if (kind == 4 && done_ > 0) {
            ASSERT_TRUE(document_->undo());
            --done_;
            ++undone_;
        } else if (kind == 5 && undone_ > 0) {
            ASSERT_TRUE(document_->redo());
            ++done_;
            --undone_;
        } else {
            typeOn(sessions_[below(sessions_.size())], kind % 4);
        }
    }

    [[nodiscard]] std::vector<Lines> pages() const {
        std::vector<Lines> pages;
        for (const PageSession& session : sessions_) {
            pages.push_back(session.keptLines());
        }
        return pages;
    }
    std::shared_ptr<const BedMap> settledMap() { return shownMap(*document_, jobs_, builder_); }
    void waitForTheMap() { ASSERT_TRUE(waitUntilIdle(jobs_)); }

private:
    std::size_t below(std::size_t count) { return random_() % count; }

    std::string anyLine() {
        const std::string aim(1, "ABCDEF"[below(6)]);
        const std::string out = std::to_string(22 + below(12));
        const std::string depth = std::to_string(7 + below(6));
        switch (below(24)) {
        case 0:
            return out + " " + depth + " gr";
        case 1:
            return "+ " + out + "½ " + depth + "'6";
        case 2:
            return out + "-21 si";
        case 3:
            return "";
        case 4:
            return "a note";
        case 5:
            return "level 0." + depth + " m";
        case 6:
            return "sticks 1" + std::to_string(below(4)) + " ft";
        case 7:
            return "aim " + aim + " = dead pine";
        case 8:
            return "aim " + aim + " = D + 1 fist right";
        case 9:
            return "PINE = " + aim + " " + out;
        default:
            return aim + " " + out + " " + depth;
        }
    }

    void typeOn(PageSession& session, std::size_t kind) {
        Lines lines = session.keptLines();
        const Lines before = lines;
        const std::size_t head = pageHeader().size();
        const auto any = [&] {
            return lines.begin() + static_cast<std::ptrdiff_t>(head + below(lines.size() - head));
        };
        const auto at = any();
        if (kind == 0) {
            lines.insert(at, anyLine());
        } else if (kind == 1) {
            *at = anyLine();
        } else if (kind == 2 && lines.size() > head + 24) {
            lines.erase(at);
        } else {
            const std::string moved = *at;
            lines.erase(at);
            lines.insert(any(), moved);
        }
        if (lines != before) {
            const auto kept = session.keep(lines);
            ASSERT_TRUE(kept) << kept.error().message;
            ++done_;
            undone_ = 0;
        }
    }

    std::mt19937 random_;
    TempFolder folder_;
    std::unique_ptr<Document> document_ = newBook(folder_ / "edited.gpkg");
    std::vector<PageSession> sessions_;
    JobBoard jobs_;
    BedBuilder builder_{*document_, jobs_};
    int done_ = 0; ///< acts since the pages were there
    int undone_ = 0;
};

/// The map of a new book into which nothing but `pages` is typed, line after line, once it was
/// closed and opened again.
std::shared_ptr<const BedMap> mapOfFreshBook(const std::vector<Lines>& pages) {
    const TempFolder folder;
    const auto path = folder / "fresh.gpkg";
    {
        const auto document = newBook(path);
        for (std::size_t page = 0; page < pages.size(); ++page) {
            PageSession session(*document);
            session.begin(std::nullopt);
            Lines typed;
            for (const std::string& line : pages[page]) {
                typed.push_back(line);
                EXPECT_TRUE(session.keep(typed));
            }
            EXPECT_EQ(session.keptLines(), pages[page]);
            placeSwim(*document, page);
        }
    }
    const auto document = openBook(path);
    JobBoard jobs;
    BedBuilder builder(*document, jobs);
    return shownMap(*document, jobs, builder);
}

double mostApart(const std::vector<float>& a, const std::vector<float>& b) {
    double most = 0.0;
    for (std::size_t i = 0; i < a.size() && i < b.size(); ++i) {
        const bool bothNone = std::isnan(a[i]) && std::isnan(b[i]);
        most = bothNone ? most : std::max(most, std::abs(double{a[i]} - double{b[i]}));
    }
    return most;
}

class AnyOrder : public ::testing::TestWithParam<Desk> {};

// Bound: the design promises a settled surface equal to a cold run to 1e-9 m.
TEST_P(AnyOrder, AfterAnyEditsItSettlesToTheSameBytesAsAColdStart) {
    Editing editing(GetParam());
    for (int edit = 0; edit < 200; ++edit) {
        SCOPED_TRACE(edit);
        ASSERT_NO_FATAL_FAILURE(editing.edit());
        if (edit % 20 == 0) {
            editing.waitForTheMap();
        }
    }
    const auto edited = editing.settledMap();
    ASSERT_TRUE(edited->settled);
    const auto fresh = mapOfFreshBook(editing.pages());
    ASSERT_EQ(edited->grid.frame(), fresh->grid.frame());
    ASSERT_GT(edited->surface.soundingCount(), 20U);
    EXPECT_EQ(edited->surface.soundingCount(), fresh->surface.soundingCount());
    EXPECT_LE(mostApart(edited->grid.level.values, fresh->grid.level.values), 1e-9);
    EXPECT_LE(mostApart(edited->grid.sigma.values, fresh->grid.sigma.values), 1e-9);
    EXPECT_EQ(edited->grid.known.values, fresh->grid.known.values);
    EXPECT_EQ(edited->level, fresh->level);
}

INSTANTIATE_TEST_SUITE_P(
    Desks, AnyOrder, ::testing::Values(Desk{17, 1}, Desk{18, 1}, Desk{19, 2}, Desk{20, 2}));

} // namespace
} // namespace bedlore
