#include "recipe/part_list.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::with;

namespace {

const std::string kToml = R"(format = 1
[[part]]
name = "top"
length_mm = 1200
width_mm = 600
thickness_mm = 30
[[part]]
name = "back"
count = 2
length_in = 23.5
width_cm = 50
thickness_m = 0.006
faces = "one"
edges = false
)";

const std::string kCsv =
    "Part,Qty,Length (mm),Width (mm),Thickness (mm),Faces,Edges\n"
    "top,1,1200,600,30,both,yes\n"
    "\"back, thin\",2,596.9,500,6,one,no\n";

void check_parts(const Result<std::vector<Part>>& parts) {
  INFO((parts ? std::string() : parts.error().text()));
  REQUIRE(parts);
  REQUIRE(parts->size() == 2);
  CHECK((*parts)[0].name == "top");
  CHECK((*parts)[0].count == 1);
  CHECK((*parts)[0].size.length.millimetres() == Approx(1200));
  CHECK((*parts)[0].faces == 2);
  CHECK((*parts)[0].edges);
  CHECK((*parts)[1].count == 2);
  CHECK((*parts)[1].size.length.millimetres() == Approx(596.9));
  CHECK((*parts)[1].size.width.millimetres() == Approx(500));
  CHECK((*parts)[1].size.thickness.millimetres() == Approx(6));
  CHECK((*parts)[1].faces == 1);
  CHECK_FALSE((*parts)[1].edges);
}

Result<std::vector<Part>> csv(const std::string& text) {
  return read_part_list(text, "parts.csv");
}

Result<std::vector<Part>> toml(const std::string& text) {
  return read_part_list(text, "parts.toml");
}

}  // namespace

TEST_CASE("A part list is read from TOML", "[recipe]") {
  check_parts(toml(kToml));
}

TEST_CASE("A part list is read from CSV, whatever parts its cells", "[recipe]") {
  check_parts(csv(kCsv));
  CHECK((*csv(kCsv))[1].name == "back, thin");
  check_parts(
      csv("name;count;length_in;width_cm;thickness_mm;faces;edges\r\n"
          "top;;47,244094488;60;30;;\r\n\r\n"
          "back;2;23 1/2;50;6;one;no\r\n;;;;;;\r\n"));
  check_parts(
      csv("\xEF\xBB\xBFname\tlength_mm\twidth_mm\tthickness_mm\tcount\tfaces\tedges\n"
          "top\t1200\t600\t30\n"
          "back\t596.9\t500\t6\t2\tone\tno\n"));
}

TEST_CASE("What is wrong in a TOML part list is named", "[recipe]") {
  check_refused(toml(with(kToml, "width_mm = 600", "width_mm = 0")),
                {"parts.toml", "line 5", "part[1].width_mm", "0", "1 to 20000"});
  check_refused(toml(with(kToml, "width_mm = 600", "")), {"part[1]", "width", "_mm"});
  check_refused(toml(with(kToml, "width_mm = 600", "width_mm = 600\nwidth_in = 24")),
                {"part[1]", "twice"});
  check_refused(toml(with(kToml, "faces = \"one\"", "faces = \"three\"")),
                {"part[2].faces", "three", "both"});
  check_refused(toml(with(kToml, "edges = false", "edge = false")), {"part[2].edge"});
  check_refused(toml("format = 1\n"), {"part", "missing"});
}

TEST_CASE("What is wrong in a CSV part list is named", "[recipe]") {
  check_refused(csv(with(kCsv, "1200", "long")),
                {"parts.csv", "line 2", "Length (mm)", "long", "1 to 20000 mm"});
  check_refused(csv(with(kCsv, "both", "three")), {"line 2", "Faces", "three", "one, both"});
  check_refused(csv(with(kCsv, ",no", ",perhaps")), {"line 3", "Edges", "perhaps", "yes, no"});
  check_refused(csv(with(kCsv, ",2,596.9", ",2.5,596.9")), {"line 3", "Qty", "2.5", "whole"});
  check_refused(csv(with(kCsv, "top,", ",")), {"line 2", "Part", "a name"});
  check_refused(csv(with(kCsv, "Faces", "Colour")), {"line 1", "Colour", "faces"});
  check_refused(csv(with(kCsv, "Length (mm)", "Length")), {"line 1", "Length"});
  check_refused(csv(with(kCsv, "Width (mm)", "Length (in)")),
                {"line 1", "Length (in)", "one of them"});
  check_refused(csv("name,length_mm,width_mm\na,1,1\n"), {"line 1", "thickness_mm"});
  check_refused(csv(with(kCsv, "both,yes", "both,yes,1")), {"line 2", "8 cells"});
  check_refused(csv(with(kCsv, "\"back, thin\"", "\"back, thin")), {"line 3", "quote"});
  check_refused(csv(""), {"empty"});
  check_refused(csv("name,length_mm,width_mm,thickness_mm\n"), {"no part"});
}
