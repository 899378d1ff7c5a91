# Run by embed_files: turns the listed files into one C++ source.
set(text "#include \"base/embedded_file.h\"\n\nnamespace coatwright {\n\n")
set(entries "")
foreach(file IN LISTS FILES)
  file(RELATIVE_PATH path ${BASE} ${file})
  file(READ ${file} content)
  # A raw string literal holds at most 65,536 characters by the standard's minimum; ours are shorter.
  string(APPEND entries "    {\"${path}\", R\"EMBED(${content})EMBED\"},\n")
endforeach()
string(APPEND text "extern const EmbeddedFile ${NAME}[] = {\n${entries}};\n")
list(LENGTH FILES count)
string(APPEND text "extern const std::size_t ${NAME}_count = ${count};\n\n}  // namespace coatwright\n")
file(WRITE ${OUTPUT} "${text}")
