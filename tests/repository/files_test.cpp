// Rules for the text of every file.
#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

constexpr std::size_t kMostColumns = 100;
constexpr std::size_t kMostLines = 600;

/// Columns as an editor counts them: UTF-8 continuation bytes take none.
std::size_t columns(std::string_view line) {
  return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
  }));
}

/// Paths of one particular machine, put together so that this file does not hold them.
std::vector<std::string> machine_paths() {
  const std::string slash = "/";
  std::vector<std::string> paths;
  for (const auto* folder : {"work", "farm", "tmp", "root", "home"}) {
    paths.push_back(slash + folder + slash);
  }
  return paths;
}

/// The first of the machine paths that a text holds as the beginning of a path, or "".
std::string machine_path_in(const std::string& text) {
  for (const std::string& path : machine_paths()) {
    for (auto at = text.find(path); at != std::string::npos; at = text.find(path, at + 1)) {
      const char before = at == 0 ? ' ' : text[at - 1];
      const bool inside_longer_path = std::isalnum(static_cast<unsigned char>(before)) != 0 ||
                                      before == '.' || before == '}' || before == '/';
      if (!inside_longer_path) {
        return path;
      }
    }
  }
  return "";
}

}  // namespace

TEST_CASE("Columns are counted in characters and machine paths are found", "[repository]") {
  CHECK(columns("20 °C") == 5);
  CHECK(machine_path_in("see " + machine_paths()[0] + "x") == machine_paths()[0]);
  CHECK(machine_path_in(".." + machine_paths()[0]).empty());
}

TEST_CASE("No line of the sources is longer than 100 columns", "[repository]") {
  for (const auto& folder : {"src", "tests"}) {
    for (const auto& file : repository::files_below(repository::root() / folder, {".h", ".cpp"})) {
      std::size_t number = 0;
      for (const std::string& line : repository::lines_of(repository::read(file))) {
        ++number;
        if (columns(line) > kMostColumns) {
          FAIL_CHECK(repository::relative(file) << ":" << number << " is too long");
        }
      }
    }
  }
}

TEST_CASE("No source file is longer than 600 lines", "[repository]") {
  for (const auto& file : repository::files_below(repository::root() / "src", {".h", ".cpp"})) {
    INFO(repository::relative(file));
    CHECK(repository::lines_of(repository::read(file)).size() <= kMostLines);
  }
}

TEST_CASE("No file names a path of one particular machine", "[repository]") {
  for (const auto& file : repository::files_below(repository::root())) {
    INFO(repository::relative(file));
    CHECK(machine_path_in(repository::read(file)).empty());
  }
}
