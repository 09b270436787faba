# common.cmake - what the lints share: which files there are, their text without comments and literals, and how a
# breach is told. Every lint is run as `cmake -DROOT=<tree> -P <lint>.cmake` and fails when it has told of one.
if(NOT DEFINED ROOT)
  message(FATAL_ERROR "ROOT is not given")
endif()

set(LAYERS base model mechanics response assess studies report io cli)

# Sources and headers under the named folders of the tree, as paths from its root.
function(lint_files out)
  set(patterns)
  foreach(folder IN LISTS ARGN)
    list(APPEND patterns "${ROOT}/${folder}/*.c" "${ROOT}/${folder}/*.h")
  endforeach()
  file(GLOB_RECURSE found RELATIVE "${ROOT}" ${patterns})
  list(SORT found)
  set(${out} "${found}" PARENT_SCOPE)
endfunction()

# The file's text with every comment taken out.
function(lint_text out path)
  file(READ "${ROOT}/${path}" text)
  set(kept "")
  while(TRUE)
    string(FIND "${text}" "/*" start)
    if(start EQUAL -1)
      break()
    endif()
    string(SUBSTRING "${text}" 0 ${start} before)
    string(SUBSTRING "${text}" ${start} -1 text)
    string(FIND "${text}" "*/" end)
    if(end EQUAL -1)
      set(text "")
    else()
      math(EXPR end "${end} + 2")
      string(SUBSTRING "${text}" ${end} -1 text)
    endif()
    string(APPEND kept "${before} ")
  endwhile()
  set(${out} "${kept}${text}" PARENT_SCOPE)
endfunction()

# The same with every string emptied as well.
function(lint_code out path)
  lint_text(text "${path}")
  string(REGEX REPLACE "\"([^\"\\\n]|\\\\.)*\"" "\"\"" text "${text}")
  set(${out} "${text}" PARENT_SCOPE)
endfunction()

# Lines of the file that include something.
function(lint_includes out path)
  file(STRINGS "${ROOT}/${path}" lines REGEX "^[ \t]*#[ \t]*include")
  set(${out} "${lines}" PARENT_SCOPE)
endfunction()

# The layer whose folder the file is in; empty outside src.
function(lint_layer out path)
  set(layer "")
  if(path MATCHES "^src/([a-z]+)/")
    set(layer "${CMAKE_MATCH_1}")
  endif()
  set(${out} "${layer}" PARENT_SCOPE)
endfunction()

set_property(GLOBAL PROPERTY lint_breaches 0)

function(lint_breach text)
  get_property(count GLOBAL PROPERTY lint_breaches)
  math(EXPR count "${count} + 1")
  set_property(GLOBAL PROPERTY lint_breaches ${count})
  message(NOTICE "${text}")
endfunction()

# Ends the lint: an error when anything was told, or when there was nothing to look at.
function(lint_end seen)
  if(seen EQUAL 0)
    message(FATAL_ERROR "no files found under ${ROOT}")
  endif()
  get_property(count GLOBAL PROPERTY lint_breaches)
  if(count GREATER 0)
    message(FATAL_ERROR "${count} breaches in ${seen} files")
  endif()
  message(STATUS "${seen} files, no breach")
endfunction()
