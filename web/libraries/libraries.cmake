# The libraries of the interface, from the sources that web/libraries/fetch puts into .build/cache/libraries:
#   imgui  Dear ImGui with its SDL2 and OpenGL backends
#   sdl2   SDL2: the system's for a desktop window, compiled lean for the browser
# They are compiled with their own warnings off; what is ours has them on.
set(libraries ${PROJECT_SOURCE_DIR}/.build/cache/libraries)
if(NOT EXISTS ${libraries}/imgui/imgui.h)
  message(FATAL_ERROR "The interface needs its libraries' sources: run web/libraries/fetch first (web/run does).")
endif()

if(EMSCRIPTEN)
  include(${CMAKE_CURRENT_LIST_DIR}/lean_copy.cmake)
  set(sdl ${libraries}/libsdl2)
  set(sdl_sources
    SDL.c SDL_assert.c SDL_dataqueue.c SDL_guid.c SDL_hints.c SDL_list.c SDL_utils.c
    atomic/SDL_atomic.c atomic/SDL_spinlock.c
    cpuinfo/SDL_cpuinfo.c
    dynapi/SDL_dynapi.c
    events/SDL_clipboardevents.c events/SDL_displayevents.c events/SDL_dropevents.c
    events/SDL_keyboard.c events/SDL_keysym_to_scancode.c events/SDL_quit.c events/SDL_touch.c
    events/SDL_windowevents.c events/imKStoUCS.c
    file/SDL_rwops.c
    stdlib/SDL_crc16.c stdlib/SDL_crc32.c stdlib/SDL_getenv.c stdlib/SDL_iconv.c stdlib/SDL_malloc.c
    stdlib/SDL_qsort.c stdlib/SDL_stdlib.c stdlib/SDL_string.c stdlib/SDL_strtokr.c
    thread/SDL_thread.c thread/generic/SDL_syscond.c thread/generic/SDL_sysmutex.c
    thread/generic/SDL_syssem.c thread/generic/SDL_systhread.c thread/generic/SDL_systls.c
    timer/SDL_timer.c timer/unix/SDL_systimer.c
    video/SDL_clipboard.c video/SDL_rect.c
    video/emscripten/SDL_emscriptenevents.c video/emscripten/SDL_emscriptenmouse.c
    video/emscripten/SDL_emscriptenvideo.c)
  list(TRANSFORM sdl_sources PREPEND ${sdl}/src/)
  # Events are never logged.
  lean_from(${sdl}/src/events/SDL_events.c)
  lean_replace("SDL_EventLoggingVerbosity > 0" "0")
  set(sdl_events ${CMAKE_CURRENT_BINARY_DIR}/SDL_events.c)
  lean_to(${sdl_events})
  # The page ends with its one window, on its one screen, which is never all that there is; no pointer is held in it.
  set(sdl_mouse ${CMAKE_CURRENT_BINARY_DIR}/SDL_mouse.c)
  lean_from(${sdl}/src/events/SDL_mouse.c)
  lean_replace("SDL_MouseQuit(void)\n{" "SDL_MouseQuit(void)\n{\n    if (1) return;")
  lean_replace("SDL_UpdateMouseCapture(SDL_bool force_release)\n{" "SDL_UpdateMouseCapture(SDL_bool force_release)\n{\n    if (1) return 0;")
  lean_to(${sdl_mouse})
  set(sdl_video ${CMAKE_CURRENT_BINARY_DIR}/SDL_video.c)
  lean_from(${sdl}/src/video/SDL_video.c)
  lean_replace("SDL_GetWindowDisplayIndex(SDL_Window * window)\n{" "SDL_GetWindowDisplayIndex(SDL_Window * window)\n{\n    if (1) return 0;")
  lean_replace("SDL_UpdateFullscreenMode(SDL_Window * window, SDL_bool fullscreen)\n{"
    "SDL_UpdateFullscreenMode(SDL_Window * window, SDL_bool fullscreen)\n{\n    if (1) return 0;")
  foreach(never "SDL_UpdateWindowGrab(SDL_Window * window)" "SDL_DestroyWindow(SDL_Window * window)" "SDL_VideoQuit(void)")
    lean_replace("${never}\n{" "${never}\n{\n    if (1) return;")
  endforeach()
  lean_to(${sdl_video})
  add_library(sdl2 STATIC ${sdl_sources} ${sdl_events} ${sdl_mouse} ${sdl_video} ${PROJECT_SOURCE_DIR}/web/libraries/sdl2_absent.c
    ${PROJECT_SOURCE_DIR}/web/libraries/sdl2_webgl.c ${PROJECT_SOURCE_DIR}/web/libraries/libc_lean.c)
  target_include_directories(sdl2 SYSTEM PUBLIC ${sdl}/include PRIVATE ${sdl} ${sdl}/src ${sdl}/src/events ${sdl}/src/video)
  # No audio, joystick, sensor or renderer: a window with WebGL and its events is all that is used.
  target_compile_definitions(sdl2 PRIVATE SDL_LEAN_AND_MEAN=1 SDL_AUDIO_DISABLED=1 SDL_JOYSTICK_DISABLED=1
    SDL_SENSOR_DISABLED=1 SDL_RENDER_DISABLED=1)
  target_compile_options(sdl2 PRIVATE -w)
else()
  find_package(SDL2 REQUIRED)
  find_package(OpenGL REQUIRED)
  add_library(sdl2 INTERFACE)
  target_link_libraries(sdl2 INTERFACE SDL2::SDL2 OpenGL::GL)
  # The backends say <SDL.h>, as SDL's own folder layout has it.
  target_include_directories(sdl2 SYSTEM INTERFACE ${SDL2_INCLUDE_DIRS})
endif()

set(imgui ${libraries}/imgui)
set(imgui_sources imgui.cpp imgui_draw.cpp imgui_tables.cpp imgui_widgets.cpp backends/imgui_impl_sdl2.cpp
  backends/imgui_impl_opengl3.cpp)
list(TRANSFORM imgui_sources PREPEND ${imgui}/)
if(EMSCRIPTEN)
  # What this release has no switch for. The library's own typeface is never shown, and is 9 KB of every visit.
  lean_from(${imgui}/imgui_draw.cpp)
  # Nor are its pointers, and its lines are smoothed without a texture.
  lean_replace("ttf_compressed_base85 = GetDefaultCompressedFontDataTTFBase85()" "ttf_compressed_base85 = \"\"")
  lean_replace("if (!(atlas->Flags & ImFontAtlasFlags_NoMouseCursors))" "if (false)")
  lean_replace("if (atlas->Flags & ImFontAtlasFlags_NoBakedLines)" "if (true)")
  lean_replace("if (!(atlas->Flags & ImFontAtlasFlags_NoBakedLines))" "if (false)")
  lean_replace("if (Flags & ImDrawListFlags_AntiAliasedLines)" "if (true)")
  lean_replace("if (Flags & ImDrawListFlags_AntiAliasedFill)" "if (true)")
  lean_replace("const bool use_texture = (Flags" "const bool use_texture = false && (Flags")
  lean_to(${CMAKE_CURRENT_BINARY_DIR}/imgui_draw.cpp)
  # The faces have the outlines of one kind.
  lean_from(${imgui}/imstb_truetype.h)
  lean_replace("if (!info->cff.size)" "if (false)")
  lean_replace("if (info->cff.size)" "if (true)")
  lean_to(${CMAKE_CURRENT_BINARY_DIR}/imstb_truetype.h)
  # Windows and tables stay where the program puts them: there is nothing to keep from visit to visit. Nor is what is
  # drawn logged as text, nor are there windows to go through by keys.
  lean_from(${imgui}/imgui.cpp)
  lean_replace("AddSettingsHandler(&ini_handler);" "")
  lean_replace("TableSettingsAddSettingsHandler();" "")
  lean_replace("    UpdateSettings();\n\n" "")
  lean_replace("SaveIniSettingsToDisk(g.IO.IniFilename);" "{}")
  lean_replace("    NavUpdateWindowing();\n\n" "")
  lean_replace("        NavUpdateWindowingOverlay();\n\n" "{}")
  lean_replace("if (g.LogEnabled" "if (false && g.LogEnabled")
  # Windows have no title, no menu and no grip to be resized by, and none is a popup or a tooltip: what they are asked for
  # such is known to be nothing.
  set(never "")
  foreach(flag Popup Tooltip Modal ChildMenu MenuBar HorizontalScrollbar AlwaysHorizontalScrollbar)
    string(APPEND never "\n#define ImGuiWindowFlags_${flag} 0")
  endforeach()
  lean_replace("#include \"imgui_internal.h\"" "#include \"imgui_internal.h\"${never}")
  lean_replace("if (int auto_fit_mask = UpdateWindowManualResize(" "if (int auto_fit_mask = true ? 0 : UpdateWindowManualResize(")
  lean_replace("if (!(flags & ImGuiWindowFlags_NoTitleBar))\n            RenderWindowTitleBarContents(" "if (false)\n            RenderWindowTitleBarContents(")
  lean_replace("whitening backgrounds\n    RenderDimmedBackgrounds()" "whitening backgrounds\n    ")
  lean_replace("if (handle_borders_and_resize_grips && !(flags" "if (false && !(flags")
  lean_replace("if (g.IO.MouseDrawCursor &&" "if (false &&")
  lean_replace("if (wheel.y != 0.0f && g.IO.KeyCtrl && g.IO.FontAllowUserScaling)" "if (false)")
  # The colours that are used are the theme's.
  lean_replace("ImGui::StyleColorsDark(this);" "")
  # The keyboard goes from control to control in the page, by their twins (mirror.js).
  lean_replace("navigation\n    NavUpdate();" "")
  lean_replace("wrap-around requests\n    NavEndFrame();" "")
  lean_replace("                        NavProcessItem();" "{}")
  lean_replace("            RenderNavHighlight(bb, child_window->ChildId);" "")
  lean_replace("if (child_window->DC.NavLayersActiveMask == 0 && child_window == g.NavWindow)" "if (false)")
  lean_replace("if (g.NavActivateId == id && !(window_flags & ImGuiWindowFlags_NavFlattened)" "if (false")
  lean_to(${CMAKE_CURRENT_BINARY_DIR}/imgui.cpp)
  lean_from(${imgui}/imgui_widgets.cpp)
  lean_replace("if (g.LogEnabled" "if (false && g.LogEnabled")
  lean_replace("    RenderNavHighlight(bb, id);" "")
  lean_replace("if (g.NavActivateDownId == id)" "if (false)")
  lean_replace("if (g.NavActivateDownId != id)" "if (true)")
  lean_replace("#include \"imgui_internal.h\"" "#include \"imgui_internal.h\"${never}")
  lean_to(${CMAKE_CURRENT_BINARY_DIR}/imgui_widgets.cpp)
  # Of the language for its shading only the version that every WebGL has.
  lean_from(${imgui}/backends/imgui_impl_opengl3.cpp)
  lean_replace("if (glsl_version < 130)" "if (true)")
  lean_to(${CMAKE_CURRENT_BINARY_DIR}/imgui_impl_opengl3.cpp)
  list(TRANSFORM imgui_sources REPLACE "^.*/(imgui|imgui_draw|imgui_widgets|imgui_impl_opengl3)[.]cpp$"
    "${CMAKE_CURRENT_BINARY_DIR}/\\1.cpp")
endif()
add_library(imgui STATIC ${imgui_sources})
target_include_directories(imgui SYSTEM PUBLIC ${imgui} ${imgui}/backends)
target_link_libraries(imgui PUBLIC sdl2)
target_compile_definitions(imgui PUBLIC IMGUI_DISABLE_DEMO_WINDOWS IMGUI_DISABLE_DEBUG_TOOLS
  IMGUI_DISABLE_OBSOLETE_FUNCTIONS)
if(EMSCRIPTEN)
  target_sources(imgui PRIVATE ${PROJECT_SOURCE_DIR}/web/libraries/opengl_state.c)
  target_compile_definitions(imgui PUBLIC IMGUI_IMPL_OPENGL_ES2 IMGUI_DISABLE_FILE_FUNCTIONS)
endif()
target_compile_options(imgui PRIVATE -w)
