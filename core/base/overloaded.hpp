// SPDX-License-Identifier: MIT
#pragma once

// A visitor of a variant, put together from lambdas.

namespace bedlore {

template <class... Functions>
struct Overloaded : Functions... {
    using Functions::operator()...;
};
template <class... Functions>
Overloaded(Functions...) -> Overloaded<Functions...>;

} // namespace bedlore
