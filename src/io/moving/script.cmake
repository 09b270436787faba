# script.cmake - PARTS one after the other as one script in a C file OUT, line by line, with its SHA-256.
cmake_minimum_required(VERSION 3.22)

set(script "(function () {\n'use strict';\n")
foreach(part IN LISTS PARTS)
  file(READ "${part}" text)
  string(APPEND script "${text}")
endforeach()
string(APPEND script "})();\n")
# Whole lines of comment, indents and blank lines are for those who read the parts.
string(REGEX REPLACE "\n *//[^\n]*" "" script "${script}")
string(REGEX REPLACE "\n */\\*[^\n]*\\*/" "" script "${script}")
string(REGEX REPLACE "\n[ \n]+" "\n" script "${script}")
if(script MATCHES "</|<!--|[^ -~\n]")
  message(FATAL_ERROR "the script has what a page cannot hold: \"</\", \"<!--\", or a sign beyond ASCII")
endif()
string(SHA256 digest "${script}")

string(REPLACE "\\" "\\\\" script "${script}")
string(REPLACE "\"" "\\\"" script "${script}")
string(REPLACE "\n" "\\n\",\n    \"" script "${script}")
file(WRITE "${OUT}" "/* moving_script.c - written by the build: the script of src/io/moving/ and its digest. */
#include \"io/write_html_moving.h\"

const char *const ss_moving_script[] = {
    \"${script}\",
    NULL,
};

const char ss_moving_script_digest[] = \"${digest}\";
")
