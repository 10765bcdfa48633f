# How a part of the house is declared: one static library a part, its sources listed by name, its neighbours named.
# sash_part(chem SOURCES a.cpp b.cpp NEEDS support quantity OUTSIDE Eigen3::Eigen)
find_package(PkgConfig REQUIRED)
find_package(Threads REQUIRED)

add_library(sash_flags INTERFACE)
target_include_directories(sash_flags INTERFACE ${CMAKE_SOURCE_DIR}/src ${CMAKE_BINARY_DIR}/generated)
target_compile_options(sash_flags INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -Woverloaded-virtual
  -Wconversion -Wno-sign-conversion -Wimplicit-fallthrough)
# g++ 12 sees overlapping copies in every optimised "literal" + std::string (its PR 105651): nothing of ours.
target_compile_options(sash_flags INTERFACE $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)
if(SASH_WERROR)
  target_compile_options(sash_flags INTERFACE -Werror)
  # What g++ 12 concludes only after inlining is often wrong inside its own library: said, but no reason to stop.
  target_compile_options(sash_flags INTERFACE
    $<$<CXX_COMPILER_ID:GNU>:-Wno-error=maybe-uninitialized;-Wno-error=array-bounds;-Wno-error=stringop-overflow>)
endif()
if(SASH_SANITIZE)
  target_compile_options(sash_flags INTERFACE -fsanitize=${SASH_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(sash_flags INTERFACE -fsanitize=${SASH_SANITIZE})
  # These warnings misfire under instrumentation in this compiler.
  target_compile_options(sash_flags INTERFACE -Wno-maybe-uninitialized)
endif()

function(sash_part NAME)
  cmake_parse_arguments(P "" "" "SOURCES;NEEDS;OUTSIDE" ${ARGN})
  add_library(sash_${NAME} STATIC ${P_SOURCES})
  target_link_libraries(sash_${NAME} PUBLIC sash_flags)
  foreach(need IN LISTS P_NEEDS)
    target_link_libraries(sash_${NAME} PUBLIC sash_${need})
  endforeach()
  target_link_libraries(sash_${NAME} PUBLIC ${P_OUTSIDE})
endfunction()

# sash_embed(chem atomic_weights assets/tables/atomic_weights.tsv) puts the file's bytes into the part's library as
# `sash::embedded::atomic_weights` (a std::string_view), declared in "embedded/atomic_weights.h".
function(sash_embed PART NAME FILE)
  set(file ${CMAKE_SOURCE_DIR}/${FILE})
  set(header ${CMAKE_BINARY_DIR}/generated/embedded/${NAME}.h)
  set(source ${CMAKE_BINARY_DIR}/generated/embedded/${NAME}.cpp)
  file(CONFIGURE OUTPUT ${header} @ONLY CONTENT [=[
#pragma once
// Generated: the bytes of @FILE@.
#include <string_view>
namespace sash::embedded {
extern const std::string_view @NAME@;
}
]=])
  file(CONFIGURE OUTPUT ${source} @ONLY CONTENT [=[
#include "embedded/@NAME@.h"
__asm__(
    ".section .rodata\n"
    ".global sash_embedded_@NAME@\n"
    ".global sash_embedded_@NAME@_end\n"
    ".balign 16\n"
    "sash_embedded_@NAME@:\n"
    ".incbin \"@file@\"\n"
    "sash_embedded_@NAME@_end:\n"
    ".byte 0\n"
    ".text\n");
extern "C" {
extern const char sash_embedded_@NAME@[];
extern const char sash_embedded_@NAME@_end[];
}
namespace sash::embedded {
const std::string_view @NAME@(sash_embedded_@NAME@,
                              static_cast<std::size_t>(sash_embedded_@NAME@_end - sash_embedded_@NAME@));
}
]=])
  target_sources(sash_${PART} PRIVATE ${source})
  set_source_files_properties(${source} TARGET_DIRECTORY sash_${PART} PROPERTIES OBJECT_DEPENDS ${file}
    CXX_COMPILER_LAUNCHER "" COMPILE_OPTIONS "-fno-lto")
endfunction()
