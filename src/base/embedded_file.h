#pragma once

#include <cstddef>
#include <string_view>

namespace coatwright {

/// A text file of the repository that was built into the program (recipes, migrations).
struct EmbeddedFile {
  std::string_view path;  ///< Below its base folder, with forward slashes.
  std::string_view text;
};

}  // namespace coatwright
