# The page's program: the interface as WebAssembly, small before fast (-Oz), the engine with it.
add_executable(counterpull_page platform_sdl.cpp platform_web.cpp)
target_link_libraries(counterpull_page PRIVATE counterpull_shell)
set_target_properties(counterpull_page PROPERTIES OUTPUT_NAME counterpull)
target_link_options(counterpull_page PRIVATE
  -Oz -flto --closure 1
  -sMALLOC=emmalloc -sFILESYSTEM=0 -sDYNAMIC_EXECUTION=0 -sENVIRONMENT=web -sASSERTIONS=0
  -sINITIAL_MEMORY=33554432 -sALLOW_MEMORY_GROWTH=0 -sTOTAL_STACK=1048576
  -sEXIT_RUNTIME=0 -sSUPPORT_ERRNO=0
  -sINCOMING_MODULE_JS_API=canvas,locateFile,onRuntimeInitialized,onAbort,screen,onFrame
  -sEXPORTED_RUNTIME_METHODS=ccall)
