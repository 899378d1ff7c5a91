// docs/product-classes.md is what the program prints. With COATWRIGHT_UPDATE_PAGES=1 in the
// environment it is rewritten instead.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>

#include <catch2/catch.hpp>

#include "repository/repository_files.h"

namespace {

std::string page_of_program() {
  // A store that is not there has no own recipes beside it.
  const std::string call =
      "'" COATWRIGHT_BINARY "' --store /nonexistent/store.sqlite product table --markdown 2>&1";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(call.c_str(), "r"), pclose);
  std::string text;
  std::array<char, 4096> buffer{};
  while (pipe && fgets(buffer.data(), static_cast<int>(buffer.size()), pipe.get()) != nullptr) {
    text += buffer.data();
  }
  return text;
}

}  // namespace

TEST_CASE("The page of all classes is what the program prints", "[repository]") {
  const auto path = repository::root() / "docs/product-classes.md";
  const std::string printed = page_of_program();
  CHECK(printed.starts_with("# "));
  if (std::getenv("COATWRIGHT_UPDATE_PAGES") != nullptr) {
    std::ofstream(path, std::ios::binary) << printed;
  }
  CHECK(repository::read(path) == printed);
}
