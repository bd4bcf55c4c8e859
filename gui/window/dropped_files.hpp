// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

#include <cstdint>
#include <filesystem>
#include <vector>

class QMimeData;

// Files that are dragged onto the window: what they are and what would happen to them.

namespace bedlore {

struct DroppedFiles {
    std::vector<std::filesystem::path> books;
    std::vector<std::filesystem::path> others;  ///< of an ending that can be read
    std::vector<std::filesystem::path> strange; ///< of any other
    std::vector<QString> refusals;              ///< a sentence for each folder without a table
    [[nodiscard]] bool empty() const {
        return books.empty() && others.empty() && strange.empty() && refusals.empty();
    }
    /// Whether there is something that is not opened or taken in.
    [[nodiscard]] bool leavesSome() const {
        return books.size() > 1 || !strange.empty() || !refusals.empty();
    }
};

/// What of `data` lies on this machine; nothing else is looked at. A folder stands for its tables.
[[nodiscard]] DroppedFiles droppedFiles(const QMimeData& data);

/// The book on the desk, as far as files can be taken into it.
enum class DropDesk : std::uint8_t { NoBook, ReadingOnly, Writable };

/// Whether a drop would do anything at all.
[[nodiscard]] bool dropDoesSomething(const DroppedFiles& files, DropDesk desk);

/// What a drop would do, in a sentence or two: "Harl Pit opens, then notes.txt is looked through
/// before anything of it is taken in."
[[nodiscard]] QString dropWords(const DroppedFiles& files, DropDesk desk);

} // namespace bedlore
