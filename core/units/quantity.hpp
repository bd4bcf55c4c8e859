// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

// A number with a dimension: one double in the SI unit inside, no implicit way in or out.

namespace bedlore {

/// `5.0 * metre` makes one, `length / metre` reads one. Two quantities of one dimension add and
/// compare; anything else does not compile.
template <class Dimension>
class Quantity {
public:
    constexpr Quantity() = default;

    [[nodiscard]] static constexpr Quantity fromSi(double si) {
        Quantity result;
        result.si_ = si;
        return result;
    }
    [[nodiscard]] constexpr double si() const { return si_; }

    constexpr Quantity& operator+=(Quantity other) {
        si_ += other.si_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        si_ -= other.si_;
        return *this;
    }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return fromSi(a.si_ + b.si_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return fromSi(a.si_ - b.si_); }
    friend constexpr Quantity operator-(Quantity a) { return fromSi(-a.si_); }
    friend constexpr Quantity operator*(double k, Quantity a) { return fromSi(k * a.si_); }
    friend constexpr Quantity operator*(Quantity a, double k) { return fromSi(a.si_ * k); }
    friend constexpr Quantity operator/(Quantity a, double k) { return fromSi(a.si_ / k); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }

private:
    double si_ = 0.0;
};

} // namespace bedlore
