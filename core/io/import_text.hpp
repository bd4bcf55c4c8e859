// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

// The text of files of others: is it UTF-8, and how is a piece of it shown safely.

namespace bedlore {

inline constexpr std::string_view utf8Mark = "\xEF\xBB\xBF";

/// What is expected of a file in another encoding.
inline constexpr const char* wantedEncoding = "UTF-8 text: save the file again with that encoding";

/// Where the first byte stands that is not part of UTF-8 text, a NUL among them; none in good text.
[[nodiscard]] std::optional<std::size_t> firstBadByte(std::string_view text);

/// "byte E9" or "a NUL byte", for a message about `firstBadByte`.
[[nodiscard]] std::string namedByte(char byte);

/// The name of another encoding that the first bytes give away, or none.
[[nodiscard]] std::optional<std::string> otherEncoding(std::string_view firstBytes);

/// At most `most` characters of `text`, fit for a message: UTF-8 whatever came in, control
/// characters replaced, "…" where something was cut off.
[[nodiscard]] std::string shown(std::string_view text, std::size_t most = 60);
/// The same of a sentence that repeats what came in: as long as any of ours.
[[nodiscard]] std::string shownSentence(std::string_view text);

[[nodiscard]] std::string_view trimmed(std::string_view text);
/// Of the letters a to z alone.
[[nodiscard]] std::string lowerCase(std::string_view text);
[[nodiscard]] bool hasControlCharacters(std::string_view text);

/// 1-based line of the byte at `offset`; a line ends with LF, CR LF or CR.
[[nodiscard]] int lineAt(std::string_view text, std::size_t offset);

} // namespace bedlore
