# The two kinds of target the project has: a layer (a static library) and a test program.

add_library(harpkeep_options INTERFACE)
target_include_directories(harpkeep_options INTERFACE ${PROJECT_SOURCE_DIR}/src ${PROJECT_SOURCE_DIR})
target_compile_options(harpkeep_options INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror
  # Designated initialisers name what differs from the defaults; the rest is meant to be left out.
  -Wno-missing-field-initializers)
if(HARPKEEP_SANITIZE)
  # GCC 12 with sanitizers and Catch2 2 raises a false -Wmaybe-uninitialized inside libstdc++.
  target_compile_options(harpkeep_options INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -Wno-maybe-uninitialized)
  target_link_options(harpkeep_options INTERFACE -fsanitize=address,undefined)
endif()

# harpkeep_layer(name LINK ... ): all .cpp files of this folder as one library; a folder of headers only
# becomes an interface library. The link list is the architecture: scripts/check_layers.py holds it to that.
function(harpkeep_layer name)
  cmake_parse_arguments(arg "" "" "LINK;PRIVATE_LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  if(sources)
    add_library(harpkeep_${name} STATIC ${sources})
    target_link_libraries(harpkeep_${name} PUBLIC harpkeep_options ${arg_LINK} PRIVATE ${arg_PRIVATE_LINK})
  else()
    add_library(harpkeep_${name} INTERFACE)
    target_link_libraries(harpkeep_${name} INTERFACE harpkeep_options ${arg_LINK})
  endif()
endfunction()

# harpkeep_tests(name LABELS ... LINK ...): all *_test.cpp files of this folder as one Catch2 program, each
# case a ctest. Labels: pure (needs nothing), db, ui, slow. SERIAL: nothing else runs beside a case, for those that
# need the computer to keep up with real time. FIXTURE: what a test made beforehand is needed; ENVIRONMENT: as NAME=VALUE.
function(harpkeep_tests name)
  cmake_parse_arguments(arg "SERIAL" "FIXTURE;ENVIRONMENT" "LABELS;LINK" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*_test.cpp)
  set(needs)
  if(arg_FIXTURE)
    list(APPEND needs FIXTURES_REQUIRED ${arg_FIXTURE})
  endif()
  if(arg_ENVIRONMENT)
    list(APPEND needs ENVIRONMENT ${arg_ENVIRONMENT})
  endif()
  add_executable(test_${name} ${sources})
  target_link_libraries(test_${name} PRIVATE harpkeep_options ${arg_LINK} Catch2::Catch2WithMain)
  # Several labels are one value: the semicolon has to live through three lists on its way to ctest.
  string(REPLACE ";" "\\\\\\\\;" labels "${arg_LABELS}")
  set(skip "")
  if("samples" IN_LIST arg_LABELS) # said by tests/support/real_samples.cpp
    set(skip SKIP_REGULAR_EXPRESSION "no recordings in ")
  endif()
  catch_discover_tests(test_${name} TEST_PREFIX "${name}: " PROPERTIES LABELS "${labels}" RUN_SERIAL ${arg_SERIAL} ${needs} ${skip})
endfunction()
