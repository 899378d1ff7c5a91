#include "report/wrap.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("A text is broken at blanks and further lines are indented", "[report]") {
  // Consistency check: expected by hand.
  CHECK(wrap("one two three four", "> ", "  ", 10) == "> one two\n  three\n  four\n");
  CHECK(wrap("fits", 2, 4) == "  fits\n");
}

TEST_CASE("A line may be exactly as long as the page is wide", "[report]") {
  CHECK(wrap("abcd efgh", "", "", 9) == "abcd efgh\n");
  CHECK(wrap("abcd efghi", "", "", 9) == "abcd\nefghi\n");
}

TEST_CASE("A word that is longer than the line is cut", "[report]") {
  CHECK(wrap("abcdefgh", "", " ", 4) == "abcd\n efg\n h\n");
  CHECK(wrap("a bcdefgh", "", "", 4) == "a\nbcde\nfgh\n");
}

TEST_CASE("A column is a code point, and none is cut in two", "[report]") {
  // U+00DF takes two bytes in UTF-8 (the Unicode standard, from memory).
  CHECK(columns_of("Nu\u00dfbaum") == 7);
  CHECK(wrap("\u00df\u00df\u00df\u00df", "", "", 3) == "\u00df\u00df\u00df\n\u00df\n");
  CHECK(padded("\u00df", 3) == "\u00df  ");
}

TEST_CASE("Line breaks count as blanks and control characters are made visible", "[report]") {
  CHECK(wrap("one\ntwo\tthree", "", "", 40) == "one two three\n");
  CHECK(wrap("red\x1b[31m", "", "", 40) == "red?[31m\n");
}

TEST_CASE("An empty text leaves its beginning without blanks at the end", "[report]") {
  CHECK(wrap("", "label   ", "", 40) == "label\n");
}

TEST_CASE("A heading is underlined as far as its longest line", "[report]") {
  CHECK(underlined("Head", '-') == "Head\n----\n");
  const std::string two = underlined(std::string(100, 'x'), '=');
  CHECK(two ==
        std::string(80, 'x') + "\n" + std::string(20, 'x') + "\n" + std::string(80, '=') + "\n");
}
