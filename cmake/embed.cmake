# embed_files(NAME <symbol> OUTPUT <file.cpp> BASE <folder> FILES <file>...)
#
# Writes a C++ file that defines `const EmbeddedFile <symbol>[]` with each file's path below BASE
# and its text, so that the program needs no data folder at run time.
function(embed_files)
  cmake_parse_arguments(ARG "" "NAME;OUTPUT;BASE" "FILES" ${ARGN})
  add_custom_command(
    OUTPUT ${ARG_OUTPUT}
    COMMAND ${CMAKE_COMMAND} -D NAME=${ARG_NAME} -D OUTPUT=${ARG_OUTPUT} -D BASE=${ARG_BASE}
            "-DFILES=${ARG_FILES}" -P ${PROJECT_SOURCE_DIR}/cmake/write_embedded.cmake
    DEPENDS ${ARG_FILES} ${PROJECT_SOURCE_DIR}/cmake/write_embedded.cmake
    COMMENT "Embedding ${ARG_NAME}"
    VERBATIM)
endfunction()
