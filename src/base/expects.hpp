// SPDX-License-Identifier: MIT
#pragma once

#include <cstdio>
#include <cstdlib>

/// Aborts, in every build, when a caller broke a precondition: that is a bug of ours, never the user's.
#define HARPKEEP_EXPECTS(condition)                                                                          \
    do {                                                                                                     \
        if (!(condition)) {                                                                                  \
            std::fprintf(stderr, "harpkeep: broken precondition at %s:%d: %s\n", __FILE__, __LINE__,         \
                         #condition);                                                                        \
            std::abort();                                                                                    \
        }                                                                                                    \
    } while (false)
