// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "strings/stringing.hpp"

namespace harpkeep {

/// An INVENTED stringing for demonstration harps: no real harp has it, and no real harp may be strung by it.
///
/// Given    any layout and the reference pitch
/// Returns  a string for every place, with lengths, gauges and tensions drawn from smooth invented curves;
///          `origin` says so in words. Pedal harps: nylon in harp octaves 0 and 1, gut from 2 to 5A, wound
///          below. Lever harps: nylon down to 5A, wound below, at little more than half the tension.
/// Notes    The curves were chosen so that 47 strings pull about the 10 kN that is said of concert harps
///          ("roughly a ton (10 kN)", encyclopedia article on the pedal harp), with no plain string above
///          70 % of its remembered breaking stress.
[[nodiscard]] StringingPlan example_stringing(const HarpLayout& layout, Hertz a4);

} // namespace harpkeep
