// SPDX-License-Identifier: MIT
#include "core/check/cause.hpp"

namespace bedlore {

std::string_view causeKey(Cause cause) {
    switch (cause) {
    case Cause::OneWrap:
        return "one_wrap";
    case Cause::FloatUp:
        return "float_up";
    case Cause::FeetForMetres:
        return "feet_for_metres";
    case Cause::SwappedDigits:
        return "swapped_digits";
    case Cause::WrongAim:
        return "wrong_aim";
    case Cause::WrongSwim:
        return "wrong_swim";
    case Cause::OnWeed:
        return "on_weed";
    case Cause::Unknown:
        break;
    }
    return "unknown";
}

} // namespace bedlore
