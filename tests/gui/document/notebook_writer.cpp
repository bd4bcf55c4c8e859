// SPDX-License-Identifier: MIT
#include "tests/gui/document/notebook_writer.hpp"

#include "core/reduction/reduction.hpp"
#include "gui/document/page_session.hpp"

#include <cstdlib>
#include <memory>
#include <random>
#include <string>
#include <unistd.h>
#include <vector>

// bedlore_notebook_writer BOOK SEED: writes in a page of BOOK as in the window, without end, until
// it is killed. It says on standard output what it is about to do, and that it is kept.

namespace bedlore::testing {
namespace {

/// One write, so that nothing of it is lost or mixed when the process is killed. False where
/// nobody listens any more.
bool say(char what, const std::vector<std::string>& lines = {}) {
    const std::string message = toMessage(what, lines);
    return ::write(STDOUT_FILENO, message.data(), message.size()) ==
           static_cast<ssize_t>(message.size());
}

class Writer {
public:
    Writer(Document& document, unsigned seed)
        : document_(document)
        , session_(document)
        , random_(seed) {
        const Table<Page>& pages = document.book()->all<Page>();
        if (pages.empty()) {
            session_.begin(std::nullopt);
        } else {
            session_.open(pages.begin()->id);
        }
    }

    /// False where something could not be kept, or nobody listens.
    bool goOn() {
        switch (random_() % 8) {
        case 0:
            return document_.canUndo() ? undo() : type();
        case 1:
            return document_.canRedo() ? redo() : type();
        case 2:
            return writeForOthers();
        case 3:
            return typeInAPause();
        default:
            return type();
        }
    }

private:
    using Lines = std::vector<std::string>;

    std::size_t below(std::size_t end) { return random_() % end; }
    std::string reading() {
        return std::to_string(16 + below(30)) + " " + std::to_string(4 + below(9)) + " " +
               (below(2) == 0 ? "si" : "gr");
    }

    /// The page with a line more, a line changed or some lines fewer.
    Lines changed() {
        Lines lines = session_.keptLines();
        const std::size_t first = writerHeader().size();
        if (lines.size() < first) {
            return writerHeader();
        }
        const std::size_t most = 30;
        const std::size_t readings = lines.size() - first;
        const auto at = [&](std::size_t i) { return lines.begin() + static_cast<long>(i); };
        if (readings > most) {
            lines.erase(at(first + below(readings - 10)), lines.end());
        } else if (readings > 0 && below(4) == 0) {
            *at(first + below(readings)) = "C " + reading();
        } else {
            lines.insert(at(first + below(readings + 1)), "C " + reading());
        }
        return lines;
    }

    /// What the page says after it. Says so before, and that it is kept after.
    template <class Act>
    bool act(const Lines& after, const Act& doIt) {
        return say('w', after) && doIt() && session_.keptLines() == after && say('k');
    }
    bool type(PageSession::Typing typing = PageSession::Typing::Done) {
        const Lines before = session_.keptLines();
        const Lines after = changed();
        if (before == after) {
            return true;
        }
        past_.push_back(before);
        future_.clear();
        return act(after, [&] { return session_.keep(after, typing).has_value(); });
    }
    /// Half a line, and then the rest of it in the same act.
    bool typeInAPause() {
        if (!type(PageSession::Typing::Pausing)) {
            return false;
        }
        Lines after = session_.keptLines();
        if (!session_.hasOpenLine() || after.size() <= writerHeader().size()) {
            return true;
        }
        const Lines half = past_.back();
        std::size_t at = 0;
        while (at < half.size() && half[at] == after[at]) {
            ++at;
        }
        after[at] += "!";
        return act(after, [&] { return session_.keep(after).has_value(); });
    }
    bool undo() {
        future_.push_back(session_.keptLines());
        const Lines after = past_.back();
        past_.pop_back();
        return act(after, [&] { return document_.undo().has_value(); });
    }
    bool redo() {
        past_.push_back(session_.keptLines());
        const Lines after = future_.back();
        future_.pop_back();
        return act(after, [&] { return document_.redo().has_value(); });
    }
    bool writeForOthers() {
        std::vector<Reduction> reductions;
        for (const Water& water : document_.book()->all<Water>()) {
            Result<Reduction> reduction =
                reduce(*document_.book(), {.water = water.id, .alone = std::nullopt});
            if (!reduction) {
                return false;
            }
            reductions.push_back(std::move(*reduction));
        }
        return document_.writeDerived(reductions).has_value();
    }

    Document& document_;
    PageSession session_;
    std::mt19937 random_;
    std::vector<Lines> past_; ///< what the page said before each act that can be undone
    std::vector<Lines> future_;
};

} // namespace
} // namespace bedlore::testing

int main(int argc, char** argv) {
    using namespace bedlore;
    if (argc != 3) {
        return 2;
    }
    const auto document = Document::open(argv[1]);
    if (!document || !(*document)->isWritable()) {
        return 1;
    }
    testing::Writer writer(**document, static_cast<unsigned>(std::atoi(argv[2])));
    while (writer.goOn()) {
    }
    return 1;
}
