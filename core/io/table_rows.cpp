// SPDX-License-Identifier: MIT
#include "core/io/table_rows.hpp"

#include <array>
#include <charconv>

namespace bedlore {

void FieldCodec<float>::write(ColumnWriter& to, const float& field) {
    std::array<char, 64> digits{};
    const auto [end, fault] = std::to_chars(digits.data(), digits.data() + digits.size(), field);
    const auto exact = static_cast<double>(field);
    double shortest = exact;
    std::from_chars(digits.data(), end, shortest);
    // A double near the middle between two floats could round to the wrong one of them.
    to.real(fault == std::errc{} && static_cast<float>(shortest) == field ? shortest : exact);
}

} // namespace bedlore
