// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

namespace harpkeep {

/// A double that knows its unit. Sums and differences stay in the unit, scaling is by plain numbers, the
/// ratio of two is a plain number; everything else does not compile (tests/src/units/quantity_test.cpp).
template <class Tag>
class Quantity {
  public:
    constexpr Quantity() = default;
    constexpr explicit Quantity(double value) : value_(value) {}
    [[nodiscard]] constexpr double value() const { return value_; }
    constexpr auto operator<=>(const Quantity&) const = default;

    constexpr Quantity operator-() const { return Quantity{-value_}; }
    constexpr Quantity& operator+=(Quantity other)
    {
        value_ += other.value_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other)
    {
        value_ -= other.value_;
        return *this;
    }
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.value_ + b.value_}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.value_ - b.value_}; }
    friend constexpr Quantity operator*(Quantity a, double factor) { return Quantity{a.value_ * factor}; }
    friend constexpr Quantity operator*(double factor, Quantity a) { return Quantity{a.value_ * factor}; }
    friend constexpr Quantity operator/(Quantity a, double divisor) { return Quantity{a.value_ / divisor}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }

  private:
    double value_ = 0.0;
};

using Hertz = Quantity<struct HertzTag>;
using Cents = Quantity<struct CentsTag>; ///< an interval or a deviation, never a pitch
using Decibels = Quantity<struct DecibelsTag>;
using Seconds = Quantity<struct SecondsTag>;
using Millimetres = Quantity<struct MillimetresTag>;
using Newtons = Quantity<struct NewtonsTag>;
using Megapascals = Quantity<struct MegapascalsTag>;
using NewtonsPerMillimetre = Quantity<struct NewtonsPerMillimetreTag>;
using Grams = Quantity<struct GramsTag>;
using Celsius = Quantity<struct CelsiusTag>;
using RelativeHumidity = Quantity<struct RelativeHumidityTag>; ///< percent
using KilogramsPerMetre = Quantity<struct KilogramsPerMetreTag>;
using KilogramsPerCubicMetre = Quantity<struct KilogramsPerCubicMetreTag>;

inline namespace literals {
constexpr Hertz operator""_Hz(long double v)
{
    return Hertz{static_cast<double>(v)};
}
constexpr Hertz operator""_Hz(unsigned long long v)
{
    return Hertz{static_cast<double>(v)};
}
constexpr Cents operator""_cents(long double v)
{
    return Cents{static_cast<double>(v)};
}
constexpr Cents operator""_cents(unsigned long long v)
{
    return Cents{static_cast<double>(v)};
}
constexpr Seconds operator""_s(long double v)
{
    return Seconds{static_cast<double>(v)};
}
constexpr Seconds operator""_s(unsigned long long v)
{
    return Seconds{static_cast<double>(v)};
}
constexpr Decibels operator""_dB(long double v)
{
    return Decibels{static_cast<double>(v)};
}
constexpr Decibels operator""_dB(unsigned long long v)
{
    return Decibels{static_cast<double>(v)};
}
constexpr Millimetres operator""_mm(long double v)
{
    return Millimetres{static_cast<double>(v)};
}
constexpr Millimetres operator""_mm(unsigned long long v)
{
    return Millimetres{static_cast<double>(v)};
}
} // namespace literals

} // namespace harpkeep
