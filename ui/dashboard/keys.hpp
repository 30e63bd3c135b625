// SPDX-License-Identifier: MIT
#pragma once

namespace harpkeep::dashboard {

/// Places in ImGuiIO::KeysDown of the keys the window knows. They are GLFW 3's key codes, which window.cpp
/// asserts, so that nothing else needs GLFW.
enum Key : int {
    key_space = 32,
    key_comma = 44,
    key_minus = 45,
    key_period = 46,
    key_0 = 48,
    key_9 = 57,
    key_equal = 61,
    key_a = 65,
    key_c = 67,
    key_f = 70,
    key_o = 79,
    key_p = 80,
    key_r = 82,
    key_s = 83,
    key_v = 86,
    key_x = 88,
    key_y = 89,
    key_z = 90,
    key_escape = 256,
    key_enter = 257,
    key_tab = 258,
    key_backspace = 259,
    key_insert = 260,
    key_delete = 261,
    key_right = 262,
    key_left = 263,
    key_down = 264,
    key_up = 265,
    key_page_up = 266,
    key_page_down = 267,
    key_home = 268,
    key_end = 269,
    key_f1 = 290,
    key_f5 = 294,
    key_keypad_enter = 335
};

} // namespace harpkeep::dashboard
