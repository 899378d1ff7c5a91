#include "recipe/toml_document.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("A document keeps the order of its keys and tables", "[recipe]") {
  const std::string text =
      "format = 1\nname = \"b\"\na = 2.5\nflag = true\nlist = [1, \"x\"]\n"
      "point = { z = 1, a = \"t\" }\n\n[zeta]\nk = 1\n\n[[alpha]]\nn = 1\n\n[[alpha]]\nn = 2\n\n"
      "[[alpha.inner]]\nm = 3\n";
  CHECK(toml_text(read_toml_document(text, "x").value()) == text);
}

TEST_CASE("Texts are written so that they are read again as they were", "[recipe]") {
  TomlKeys document;
  const std::string odd = "a \"b\" \\ c\n\t\x01 é";
  document.set("odd key", odd);
  const auto again = read_toml_document(toml_text(document), "x");
  REQUIRE(again);
  CHECK(again->text("odd key") == odd);
}

TEST_CASE("A number keeps its digits and stays a number", "[recipe]") {
  TomlKeys document;
  document.set("whole", 12.0);
  document.set("fine", 4999.123456);
  document.set("small", 1e-7);
  CHECK(toml_text(document) == "whole = 12.0\nfine = 4999.123456\nsmall = 1e-07\n");
}

TEST_CASE("A key is set in its place, and a new one behind another", "[recipe]") {
  TomlKeys document = read_toml_document("a = 1\nb = 2\nc = 3\n", "x").value();
  document.set("b", "two");
  document.set("new", "n", "a");
  document.remove("c");
  CHECK(toml_text(document) == "a = 1\nnew = \"n\"\nb = \"two\"\n");
}

TEST_CASE("What is no TOML is refused with file and line", "[recipe]") {
  const auto wrong = read_toml_document("a = 1\nb = \n", "x.toml");
  REQUIRE_FALSE(wrong);
  CHECK_THAT(wrong.error().text(), Catch::Contains("x.toml: line 2"));
}
