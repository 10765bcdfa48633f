# sash_test(chem SOURCES formula_test.cpp NEEDS chem): one test program, run as one CTest entry.
find_package(GTest REQUIRED)
# What sanitizers must not hold against us, with the reasons.
set(sash_test_environment
  "TSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/tools/tsan_suppressions.txt"
  "LSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/tools/lsan_suppressions.txt:print_suppressions=0")
# Mistakes of memory and undefined behaviour are looked for in the program: instrumenting its tests as well takes a third
# of their building time. (Threads are watched in both.) Linked last, so that it has the last word.
add_library(sash_test_flags INTERFACE)
if(SASH_SANITIZE MATCHES address)
  target_compile_options(sash_test_flags INTERFACE -fno-sanitize=all)
endif()
function(sash_test NAME)
  cmake_parse_arguments(T "" "" "SOURCES;NEEDS;OUTSIDE;LABELS" ${ARGN})
  add_executable(test_${NAME} ${T_SOURCES})
  foreach(need IN LISTS T_NEEDS)
    target_link_libraries(test_${NAME} PRIVATE sash_${need})
  endforeach()
  target_link_libraries(test_${NAME} PRIVATE sash_test_tools sash_flags GTest::gmock GTest::gtest_main ${T_OUTSIDE}
    sash_test_flags)
  add_test(NAME ${NAME} COMMAND test_${NAME})
  set_tests_properties(${NAME} PROPERTIES TIMEOUT 600 LABELS "${T_LABELS}"
    ENVIRONMENT "${sash_test_environment}")
endfunction()
