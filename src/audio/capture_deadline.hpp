// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <functional>

namespace harpkeep {

/// Runs `work` on a thread of its own and waits for it no longer than `deadline`.
///
/// Given      work  owns whatever it touches: after a timeout it goes on in the background, perhaps for ever
/// Returns    whether it ended in time
/// Notes      The calls of a sound driver can hang for good: stopping a stream of a server that froze,
/// opening
///            a device whose server does not answer. There is no way to end such a call, only to walk away.
[[nodiscard]] bool ends_within(Seconds deadline, std::function<void()> work);

} // namespace harpkeep
