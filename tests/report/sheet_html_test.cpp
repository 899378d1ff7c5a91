// Documents are read by xmllint (libxml2), which is no part of the project: they must be
// well-formed as XML 1.0 as they stand. Skipped with a message where it is absent.
#include "report/sheet_html.h"

#include <regex>

#include <catch2/catch.hpp>

#include "print/print_tools.h"
#include "print/sample_sheets.h"
#include "report/html_text.h"
#include "report/sheet_text.h"

using namespace coatwright;

namespace {

/// What xmllint finds by an XPath expression; nothing where it is absent.
std::optional<std::string> found(const std::string& xpath, const std::string& html) {
  if (!print_tools::is_there("xmllint")) {
    return std::nullopt;
  }
  const print_tools::TemporaryFile file(html, ".html");
  const auto outcome = print_tools::run("xmllint --xpath \"" + xpath + "\" " + file.path());
  INFO(outcome.output);
  CHECK(outcome.status == 0);
  return outcome.output;
}

std::string named(const std::string& element) {
  return "//*[local-name()='" + element + "']";
}

/// Checks how many of an element there are.
void check_count(const std::string& element, int count, const std::string& html) {
  if (const auto number = found("count(" + named(element) + ")", html)) {
    INFO(element);
    CHECK(std::stoi(*number) == count);
  }
}

}  // namespace

TEST_CASE("A sheet is a well-formed document", "[report]") {
  for (const Sheet& sheet : {sample_sheets::empty(),
                             sample_sheets::of_every_block(),
                             sample_sheets::of_many_rows(10),
                             sample_sheets::of_long_words()}) {
    const std::string html = sheet_as_html(sheet, PaperSize::kA4);
    CHECK(html.starts_with("<!DOCTYPE html>\n"));
    check_count("head", 1, html);
    check_count("h1", 1, html);
  }
}

TEST_CASE("The blocks of a sheet are elements with their meaning", "[report]") {
  const std::string html = sheet_as_html(sample_sheets::of_every_block(), PaperSize::kA4);
  check_count("h2", 3, html);
  check_count("table", 1, html);
  check_count("th", 2, html);
  check_count("ul", 2, html);
  check_count("li", 3, html);
  check_count("svg", 1, html);
  check_count("desc", 1, html);
  if (const auto title = found("string(" + named("title") + ")", html)) {
    CHECK(*title == "Hall table\n");
  }
  if (const auto subtitle = found("string(" + named("header") + "/*[2])", html)) {
    CHECK(*subtitle == "Ines & Tobias, \"Larch and Lathe\" <bench 2>\n");
  }
}

TEST_CASE("A document needs nothing beside itself, and runs nothing", "[report]") {
  const std::string html = sheet_as_html(sample_sheets::of_every_block(), PaperSize::kA4);
  for (const auto* element : {"script", "link", "img", "iframe", "object"}) {
    check_count(element, 0, html);
  }
  CHECK(html.find("src=") == std::string::npos);
  CHECK(html.find("@import") == std::string::npos);
  CHECK(!std::regex_search(html, std::regex(R"re(url\((?!#))re")));
}

TEST_CASE("A document says how it is printed", "[report]") {
  Sheet sheet = sample_sheets::of_every_block();
  CHECK(sheet_as_html(sheet, PaperSize::kA4).find("size: A4 portrait") != std::string::npos);
  sheet.landscape = true;
  CHECK(sheet_as_html(sheet, PaperSize::kLetter).find("size: letter landscape") !=
        std::string::npos);
}

TEST_CASE("A box to tick says what it is where it is read aloud", "[report]") {
  const std::string html = sheet_as_html(sample_sheets::of_every_block(), PaperSize::kA4);
  if (const auto count = found("count(//*[@role='img' and @aria-label='to tick'])", html)) {
    CHECK(*count == "2\n");
  }
}

TEST_CASE("Text is escaped, and bytes that are no text are replaced", "[report]") {
  // Well-formed UTF-8: Unicode 15, table 3-7; from memory.
  CHECK(html_escaped("a < b & \"c\" > d") == "a &lt; b &amp; &quot;c&quot; &gt; d");
  CHECK(html_escaped("20 °C") == "20 °C");
  for (const auto* bad :
       {"\xFF", "\xC0\x80", "\xE2\x82", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\x01"}) {
    INFO(bad);
    CHECK(html_escaped(bad).starts_with("\xEF\xBF\xBD"));
  }
  CHECK(html_lines("a\nb") == "a<br/>b");
  CHECK(css_string("a\"</style>") == "\"a\\22 \\3c /style\\3e \"");
  Sheet sheet = sample_sheets::empty();
  sheet.title = "</style><b \xFF";
  sheet.blocks = {SheetText{"\x02 &"}};
  check_count("b", 0, sheet_as_html(sheet, PaperSize::kA4));
}

TEST_CASE("A sheet as text keeps to the page's width", "[report]") {
  for (const Sheet& sheet : {sample_sheets::of_every_block(), sample_sheets::of_many_rows(20)}) {
    const std::string text = sheet_as_text(sheet);
    std::size_t begin = 0;
    for (auto end = text.find('\n'); end != std::string::npos; end = text.find('\n', begin)) {
      INFO(text.substr(begin, end - begin));
      CHECK(end - begin <= 90);  // bytes: a few letters have two
      begin = end + 1;
    }
  }
  const std::string text = sheet_as_text(sample_sheets::of_every_block());
  CHECK(text.find("[ ] gloves on\n") != std::string::npos);
  CHECK(text.find("! RAGS BURN\n") != std::string::npos);
}
