// SPDX-License-Identifier: MIT
#pragma once

#include "app/command_line.hpp"
#include "app/console.hpp"
#include "core/base/result.hpp"
#include "core/bed/surface.hpp"
#include "core/book/book.hpp"
#include "core/io/book_file.hpp"
#include "core/reduction/reduction.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// One function for each command, and what they share.

namespace bedlore {

/// Where the result goes: words for a person, or JSON.
enum class ResultForm : std::uint8_t { Words, Json };

[[nodiscard]] ExitStatus runImport(const ImportCommand& command, ResultForm form, Console& console);
[[nodiscard]] ExitStatus runExport(const ExportCommand& command, ResultForm form, Console& console);
[[nodiscard]] ExitStatus runDepth(const DepthCommand& command, ResultForm form, Console& console);
[[nodiscard]] ExitStatus runCheck(const CheckCommand& command, ResultForm form, Console& console);
[[nodiscard]] ExitStatus runInfo(const InfoCommand& command, ResultForm form, Console& console);

/// Opens a book to look at it, and says what its opening had to say.
[[nodiscard]] Result<BookFile> openToRead(const std::filesystem::path& path, Console& console);

/// The water named, or the only one.
[[nodiscard]] Result<Id<Water>>
chooseWater(const Book& book, const std::optional<std::string>& name);

/// The swim named, in the water chosen; none where none is named.
[[nodiscard]] Result<std::optional<Id<Swim>>>
chooseSwim(const Book& book, Id<Water> water, const std::optional<std::string>& name);

/// A water's bed as its notes give it, with every reading in its place.
struct MappedWater {
    Reduction reduction;
    BedSurface surface;
    WaterLevel level; ///< that was asked for, or that of the latest visit
};

[[nodiscard]] Result<MappedWater> mapWater(
    const Book& book, const ReductionScope& scope, std::optional<double> level, Console& console);

/// Writes the tables for other programs from `book`, which is what `file` holds by now, and gives
/// what its notes had to say. The tables are a by-product: where they cannot be made the book is
/// whole all the same, and the next one who writes them does. Stopped, it says nothing of it.
/// Readings without a depth stand in them where their own cast puts them when there are too many
/// depths to fit a bed in passing.
std::vector<ReductionNotice> writeTables(BookFile& file, const Book& book, Console& console);

} // namespace bedlore
