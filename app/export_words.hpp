// SPDX-License-Identifier: MIT
#pragma once

#include "app/command_line.hpp"
#include "core/base/error.hpp"
#include "core/book/leaving_book.hpp"
#include "core/chart/map_drawing.hpp"

#include <optional>
#include <string>

// What is said before an export writes anything: why it cannot be, or what the files will hold.

namespace bedlore {

[[nodiscard]] std::optional<Error> exportNotBuilt(const ExportCommand& command);

/// No output may fall on the book or on another output.
[[nodiscard]] std::optional<Error> exportClash(const ExportCommand& command);

/// What the tables of the whole book will hold, and what stays at home.
[[nodiscard]] std::string
tablesHoldings(const PrivateCounts& privateOnes, PrivateThings privateThings);

/// One sentence or more, for whoever is about to share them.
[[nodiscard]] std::string exportHoldings(const ExportCommand& command, const MapDrawing& map);

} // namespace bedlore
