// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"

#include <string>
#include <string_view>

// Where a swim lies, as it is typed: on the earth or in the water's own plane.

namespace bedlore {

/// "52.12345, -1.54321", "52.12345 N, 1.54321 W": decimal degrees, the latitude first unless the
/// letters say otherwise. "120 m east, 45 m north": lengths in the water's plane. Blank text is no
/// place. A sentence where it is none of these.
[[nodiscard]] Result<Place> readTypedPlace(std::string_view text);

/// A place as `readTypedPlace` reads it back; empty for none.
[[nodiscard]] std::string typedPlace(const Place& place);

/// "taken as 52.12345° north, 1.54321° west", or that there is none.
[[nodiscard]] std::string takenPlaceWords(const Place& place);

/// What is typed about a swim. `tipHeight` has to say its unit; blank is not said.
struct TypedSwim {
    std::string place;
    std::string tipHeight;
    std::string standing;
};

/// The swim as it is in the book.
[[nodiscard]] TypedSwim typedSwim(const Swim& swim);

/// The edits that make the book say what is typed, none where it says so already. The first place
/// in latitude and longitude gives the water's plane its origin, which never moves after. A
/// sentence where the place cannot be read, or does not fit the water's other places.
[[nodiscard]] Result<Edits> placeSwim(const Book& book, Id<Swim> swim, const TypedSwim& typed);

} // namespace bedlore
