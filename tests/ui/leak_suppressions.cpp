// SPDX-License-Identifier: MIT
// What the leak sanitizer is to overlook, asked for by its run-time library; without sanitizers nobody asks.

/// Fontconfig 2.14 keeps a few hundred bytes of the match it made last out of reach of its own pointers: a
/// program that destroys every pattern it got still leaves 288 bytes behind, whether it matched five times or
/// twenty.
extern "C" const char* __lsan_default_suppressions() // NOLINT(bugprone-reserved-identifier): their name
{
    return "leak:libfontconfig.so\n";
}
