# The page's program: the interface as WebAssembly, small before fast (-Oz), the engine with it.
function(page_program name)
  target_link_options(${name} PRIVATE
    -Oz -flto --closure 1
    -sMALLOC=emmalloc -sFILESYSTEM=0 -sDYNAMIC_EXECUTION=0 -sENVIRONMENT=web -sASSERTIONS=0
    -sINITIAL_MEMORY=33554432 -sALLOW_MEMORY_GROWTH=0 -sTOTAL_STACK=1048576
    -sEXIT_RUNTIME=0 -sSUPPORT_ERRNO=0 -sTEXTDECODER=2 -sPOLYFILL=0
    # The page has made the canvas's one context already, and draws without mistakes.
    -sGL_SUPPORT_AUTOMATIC_ENABLE_EXTENSIONS=0 -sGL_SUPPORT_SIMPLE_ENABLE_EXTENSIONS=0
    -sGL_TRACK_ERRORS=0 -sGL_POOL_TEMP_BUFFERS=0 -sGL_WORKAROUND_SAFARI_GETCONTEXT_BUG=0
    -sHTML5_SUPPORT_DEFERRING_USER_SENSITIVE_REQUESTS=0
    -sINCOMING_MODULE_JS_API=canvas,instantiateWasm,noInitialRun,onRuntimeInitialized,onAbort,screen,onFrame
    -sEXPORTED_RUNTIME_METHODS=ccall,allocateUTF8 -sEXPORTED_FUNCTIONS=_main,_free)
endfunction()

add_executable(counterpull_page platform_sdl.cpp platform_web.cpp)
target_link_libraries(counterpull_page PRIVATE counterpull_shell)
set_target_properties(counterpull_page PROPERTIES OUTPUT_NAME counterpull)
page_program(counterpull_page)
# Emscripten goes over it once with Debian's wasm-opt; npm's, three years newer, until nothing more gives way.
add_custom_command(TARGET counterpull_page POST_BUILD
  COMMAND ${PROJECT_SOURCE_DIR}/web/toolchain/node_modules/.bin/wasm-opt -Oz --converge --low-memory-unused
    --zero-filled-memory ${counterpull_wasm_features} $<TARGET_FILE_DIR:counterpull_page>/counterpull.wasm
    -o $<TARGET_FILE_DIR:counterpull_page>/counterpull.wasm VERBATIM)

# Hearing, which a Worker of the page runs: fast before small.
set(hearing_sources acquisition clearness decimate envelope_solver listener onsets partials_fit pluck_reading spectrum string_fit
  tone transform window_reading)
list(TRANSFORM hearing_sources PREPEND ${PROJECT_SOURCE_DIR}/engine/hearing/)
list(TRANSFORM hearing_sources APPEND .cpp)
add_executable(counterpull_hearing ${PROJECT_SOURCE_DIR}/web/hearing/hearing.cpp ${hearing_sources}
  ${PROJECT_SOURCE_DIR}/engine/base/pitch.cpp)
target_link_libraries(counterpull_hearing PRIVATE counterpull_flags)
target_compile_options(counterpull_hearing PRIVATE -O3)
set_target_properties(counterpull_hearing PROPERTIES OUTPUT_NAME hearing SUFFIX .wasm)
target_link_options(counterpull_hearing PRIVATE -O3 -flto --no-entry
  -sSTANDALONE_WASM=1 -sFILESYSTEM=0 -sMALLOC=emmalloc -sINITIAL_MEMORY=16777216 -sALLOW_MEMORY_GROWTH=0 -sTOTAL_STACK=262144
  -sEXPORTED_FUNCTIONS=_hearing_targets,_hearing_samples,_hearing_begin,_hearing_expect,_hearing_hear,_hearing_told)
add_dependencies(counterpull_page counterpull_hearing)

# A window of the same libraries with one slider, for the benchmark to compare with. Built only when asked for.
add_executable(counterpull_empty EXCLUDE_FROM_ALL ${PROJECT_SOURCE_DIR}/tests/benchmark/empty_page.cpp
  ${CMAKE_CURRENT_BINARY_DIR}/fonts.cpp)
target_link_libraries(counterpull_empty PRIVATE counterpull_flags imgui)
page_program(counterpull_empty)
