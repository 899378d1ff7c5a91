#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"

/// The parts of a piece as a cut list has them; docs/file-formats/part-lists.md describes the file.
namespace coatwright {

struct Part {
  std::string name;
  int count = 1;
  Dimensions size;
  int faces = 2;                 ///< 1 or 2.
  bool edges = true;             ///< Whether its four edges are coated.
  bool before_assembly = false;  ///< TOML: it is finished before it is put together.
  std::string unit = {};         ///< TOML: what it is finished with as one thing; empty: not said.
  bool apart = false;            ///< TOML: each of its count is finished for itself.
};

/// Reads a part list. @param label the file's name as errors show it; a name that ends in ".toml"
/// is TOML, any other is CSV with commas, semicolons or tabs.
/// Errors: kInputFile with file, line, key or column, the value found and what is allowed.
[[nodiscard]] Result<std::vector<Part>> read_part_list(std::string_view text,
                                                       const std::string& label);

}  // namespace coatwright
