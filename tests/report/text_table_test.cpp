#include "report/text_table.h"

#include <catch2/catch.hpp>

namespace coatwright {
namespace {

TEST_CASE("A table's columns are as wide as their widest cell", "[report]") {
  TextTable table({{"piece"}, {"area", TextTable::Align::kRight}, {"by"}});
  table.add({"bookcase", "1.90 m2", "Fri"});
  table.add({"box", "0.20 m2"});
  CHECK(table.text() ==
        "piece        area  by\n"
        "bookcase  1.90 m2  Fri\n"
        "box       0.20 m2\n");
}

TEST_CASE("A table can be indented, and counts letters and not bytes", "[report]") {
  TextTable table({{"wood"}, {"kind"}});
  table.add({"\u00e9b\u00e8ne", "a"});
  CHECK(table.text(2) ==
        "  wood   kind\n"
        "  \u00e9b\u00e8ne  a\n");
}

}  // namespace
}  // namespace coatwright
