// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

// A picture without what a camera or a program wrote beside it: positions, names, dates.

namespace bedlore {

/// No photo of the book is larger [bytes].
inline constexpr std::size_t mostPhotoBytes = std::size_t{32} << 20U;

/// What a photo has to be, for messages.
inline constexpr auto wantedPhoto = "a whole JPEG or PNG picture of at most 32 MB";

/// The same picture, its image data byte for byte, with nothing beside it. Of a JPEG the
/// application segments go, except APP0 (JFIF) and Adobe's APP14, which say how colours are stored,
/// the comments, and what follows its end. Of a PNG stays what is critical and tRNS, gAMA, cHRM,
/// sRGB, iCCP and pHYs. A picture without more than that is given back as it is. None for a larger
/// picture, another kind, or one that is cut off or damaged in its structure.
/// Source: ITU-T T.81 (1992), annex B; PNG (W3C, 2003), sections 5 and 11.
[[nodiscard]] std::optional<std::vector<std::byte>> plainPhoto(std::span<const std::byte> bytes);

} // namespace bedlore
