// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/error.hpp"

#include <tl/expected.hpp>

#include <utility>

// A value or the reason why there is none.

namespace bedlore {

/// Has the shape of `std::expected`, which this compiler does not have yet.
template <class T>
using Result = tl::expected<T, Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(Error error) {
    return tl::unexpected<Error>(std::move(error));
}

} // namespace bedlore
