// The tables of the tests say where each of their values is from.
#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) {
    cells.push_back(cell);
  }
  return cells;
}

/// The sources of a table: of each row by its column "source", or of all by "Source: key" in the
/// comment lines at its head; "" for a row without one.
std::set<std::string> sources_of(const std::string& table) {
  static const std::string kWhole = "Source: ";
  std::set<std::string> sources;
  std::string of_all;
  std::vector<std::string> names;
  for (const std::string& line : repository::lines_of(table)) {
    if (line.starts_with('#')) {
      const auto at = line.find(kWhole);
      of_all = at == std::string::npos ? of_all : line.substr(at + kWhole.size());
    } else if (names.empty()) {
      names = cells_of(line);
    } else {
      const auto cells = cells_of(line);
      const auto column = std::find(names.begin(), names.end(), "source") - names.begin();
      const auto index = static_cast<std::size_t>(column);
      sources.insert(index < cells.size() ? cells[index] : of_all);
    }
  }
  return sources;
}

}  // namespace

TEST_CASE("The source of a table's rows is read from its column or its head", "[repository]") {
  CHECK(sources_of("# x\na,source\n1,key\n2,other\n") == std::set<std::string>{"key", "other"});
  CHECK(sources_of("# Source: key\na,b\n1,2\n") == std::set<std::string>{"key"});
  CHECK(sources_of("a,b\n1,2\n") == std::set<std::string>{""});
}

TEST_CASE("Every row of the tests' tables names a source in the list of references",
          "[repository]") {
  const std::set<std::string> keys = repository::reference_keys();
  const auto tables = repository::files_below(repository::root() / "tests/data", {".csv"});
  REQUIRE_FALSE(tables.empty());
  for (const auto& table : tables) {
    for (const std::string& source : sources_of(repository::read(table))) {
      INFO(repository::relative(table) << ": source " << source);
      CHECK(keys.contains(source));
    }
  }
}
