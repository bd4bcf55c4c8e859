// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"

#include <string>
#include <string_view>
#include <vector>

// Fields that are lists or one of several forms, as JSON text that a person can read.

namespace bedlore {

/// Whether a field of type `T` is stored as JSON text (RFC 8259) in one column.
template <class T>
inline constexpr bool isStoredAsJson = false;
template <>
inline constexpr bool isStoredAsJson<SpoolDimensions> = true;
template <>
inline constexpr bool isStoredAsJson<AimBasis> = true;
template <>
inline constexpr bool isStoredAsJson<SpotPlace> = true;
template <>
inline constexpr bool isStoredAsJson<LogContent> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<ShorePart>> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<Place>> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<CalibrationPair>> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<Allowance>> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<LengthUsed>> = true;
template <>
inline constexpr bool isStoredAsJson<std::vector<OnLead>> = true;

template <class T>
concept StoredAsJson = isStoredAsJson<T>;

/// Fails on a number that is not finite and on text that is not UTF-8. Numbers read back exactly.
template <StoredAsJson T>
[[nodiscard]] Result<std::string> toJson(const T& field);

/// Fails, with what is wrong in a few words, on text that `toJson` cannot have made.
template <StoredAsJson T>
[[nodiscard]] Result<T> fromJson(std::string_view text);

} // namespace bedlore
