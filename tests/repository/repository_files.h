#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

/// Reading the repository's own files, for the tests of its rules.
namespace repository {

inline std::filesystem::path root() {
  return COATWRIGHT_SOURCE_DIR;
}

inline std::string read(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    lines.push_back(line);
  }
  return lines;
}

/// Every file below a folder, sorted; build folders and .git are left out.
inline std::vector<std::filesystem::path> files_below(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  auto walk = std::filesystem::recursive_directory_iterator(folder);
  for (auto entry = begin(walk); entry != end(walk); ++entry) {
    const std::string name = entry->path().filename().string();
    if (entry->is_directory() && (name == ".git" || name.starts_with("build"))) {
      entry.disable_recursion_pending();
    } else if (entry->is_regular_file() && name != ".git") {  // a file in a linked work tree
      files.push_back(entry->path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Files below a folder that end in one of the given ways.
inline std::vector<std::filesystem::path> files_below(const std::filesystem::path& folder,
                                                      const std::set<std::string>& extensions) {
  std::vector<std::filesystem::path> files = files_below(folder);
  std::erase_if(files,
                [&](const auto& file) { return !extensions.contains(file.extension().string()); });
  return files;
}

inline std::string relative(const std::filesystem::path& file) {
  return file.lexically_relative(root()).generic_string();
}

/// The keys of the entries in docs/references.bib.
inline std::set<std::string> reference_keys() {
  std::set<std::string> keys;
  for (const std::string& line : lines_of(read(root() / "docs/references.bib"))) {
    const auto brace = line.find('{');
    const auto comma = line.find(',');
    if (line.starts_with('@') && brace != std::string::npos && comma != std::string::npos) {
      keys.insert(line.substr(brace + 1, comma - brace - 1));
    }
  }
  return keys;
}

}  // namespace repository
