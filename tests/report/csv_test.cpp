#include "report/csv.h"

#include <catch2/catch.hpp>

namespace coatwright {
namespace {

std::string record_of(const std::vector<std::string>& texts) {
  std::vector<CsvCell> cells;
  for (const std::string& text : texts) {
    cells.push_back(CsvCell::text(text));
  }
  return csv_record(cells);
}

}  // namespace

TEST_CASE("Records are written as RFC 4180 says", "[report]") {
  // EVIDENCE: rfc4180 section 2, the examples of rules 1, 5, 6 and 7
  CHECK(record_of({"aaa", "bbb", "ccc"}) == "aaa,bbb,ccc\r\n");
  CHECK(record_of({"aaa", "b\r\nbb", "ccc"}) == "aaa,\"b\r\nbb\",ccc\r\n");
  CHECK(record_of({"aaa", "b\"bb", "ccc"}) == "aaa,\"b\"\"bb\",ccc\r\n");
  CHECK(record_of({"a,b", "", "c d"}) == "\"a,b\",,c d\r\n");
}

TEST_CASE("A text that a spreadsheet would take for a formula is made harmless", "[report]") {
  // EVIDENCE: owasp_csv_injection, the list of characters
  for (const char first : {'=', '+', '-', '@', '\t'}) {
    const std::string formula = first + std::string("1");
    CHECK(CsvCell::text(formula).written() == "'" + formula);
  }
  CHECK(CsvCell::text("\r=1").written() == "\"'\r=1\"");
  CHECK(CsvCell::text("=HYPERLINK(\"a\",\"b\")").written() ==
        "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
  CHECK(CsvCell::text("2 = 2").written() == "2 = 2");
}

TEST_CASE("A number below zero stays a number", "[report]") {
  CHECK(CsvCell::number("-4.5").written() == "-4.5");
}

}  // namespace coatwright
