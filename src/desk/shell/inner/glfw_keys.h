#pragma once
// From GLFW's key codes to ours.

#include "desk/shown/key.h"

namespace sash::desk::inner {

/// `name`: what the person's layout prints on the key (glfwGetKeyName), null where it prints nothing.
Key key_from_glfw(int code, const char* name);
Mods mods_from_glfw(int mods);

}  // namespace sash::desk::inner
