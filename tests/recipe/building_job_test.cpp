#include "recipe/building_job.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::with;

namespace {

std::string part(const std::string& name, const std::string& more = "") {
  return "[[part]]\nname = \"" + name + "\"\nlength_mm = 600\nwidth_mm = 400\nthickness_mm = 20\n" +
         more;
}

/// A cabinet: sides and shelves are glued up and then finished, the doors are finished by
/// themselves, and the back with a schedule of its own.
const std::string kCabinet =
    "format = 1\n" + part("side", "count = 2\n") + part("shelf", "count = 3\n") +
    part("door", "count = 2\nfinish = \"before assembly\"\napart = true\n") +
    part("back", "finish = \"before assembly\"\nfaces = \"one\"\n") + R"(
[[unit]]
name = "body"
faces = "points"
rack_places = 2

[[unit]]
name = "back"
schedule = "hardwax-oil"

[[work]]
kind = "glue"
name = "glue the body up"
parts = ["body"]
when = "before finishing"
minutes = 40
people = 2
glue = "pva-yellow"

[[work]]
kind = "mask"
parts = ["back"]
minutes = 10

[[work]]
kind = "unmask"
parts = ["back"]
minutes = 5

[[work]]
kind = "hardware"
name = "hang the doors"
parts = ["side", "door"]
minutes = 30
needs = "dry-hard"

[[work]]
kind = "deliver"
minutes = 60
)";

Result<BuildingJob> read(const std::string& text) {
  return read_building_job(text, "cabinet.toml");
}

std::vector<std::string> names_of(const BuildingJob& job) {
  std::vector<std::string> names;
  for (const FinishUnit& unit : job.units) {
    names.push_back(unit.name);
  }
  return names;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("A list of parts alone is finished as a whole", "[recipe]") {
  const auto job = read("format = 1\n" + part("top") + part("leg", "count = 4\n"));
  REQUIRE(job);
  CHECK(names_of(*job) == Names{"all"});
  CHECK_FALSE(job->is_divided());
  CHECK(job->units[0].parts_text() == "1 x top, 4 x leg");
  const auto csv =
      read_building_job("name,length_mm,width_mm,thickness_mm\ntop,9,9,9\n", "parts.csv");
  REQUIRE(csv);
  CHECK(names_of(*csv) == Names{"all"});
}

TEST_CASE("A piece is divided into what is finished as one thing", "[recipe]") {
  const auto job = read(kCabinet);
  INFO((job ? std::string() : job.error().text()));
  REQUIRE(job);
  CHECK(job->is_divided());
  CHECK(names_of(*job) == Names{"body", "door 1", "door 2", "back"});
  CHECK(job->units[0].parts_text() == "2 x side, 3 x shelf");
  CHECK(job->units[0].faces == UnitFaces::kOnPoints);
  CHECK(job->units[0].rack_places == 2);
  CHECK(job->units[1].parts_text() == "1 x door");
  CHECK(job->units[1].rack_places == 1);
  CHECK(job->units[3].schedule == "hardwax-oil");
  CHECK_FALSE(job->units[3].has_both_faces());
}

TEST_CASE("Equal parts are one unit unless they are apart, and parts may share one", "[recipe]") {
  const auto together = read(
      "format = 1\n" + part("top") + part("slat", "count = 9\nfinish = \"before assembly\"\n") +
      part("rail", "unit = \"frame\"\n") + part("stile", "unit = \"frame\"\n"));
  REQUIRE(together);
  CHECK(names_of(*together) == Names{"body", "slat", "frame"});
  CHECK(together->units[1].parts_text() == "9 x slat");
  CHECK(together->units[2].parts_text() == "1 x rail, 1 x stile");
}

TEST_CASE("What a unit says of a part that is apart holds for each", "[recipe]") {
  const auto job = read(kCabinet + "[[unit]]\nname = \"door\"\nfaces = \"two\"\nrack_places = 3\n");
  REQUIRE(job);
  CHECK(job->units[1].rack_places == 3);
  CHECK(job->units[2].rack_places == 3);
  CHECK(job->units[2].faces == UnitFaces::kTwo);
}

TEST_CASE("Work is read in its order, with what is usual for its kind", "[recipe]") {
  const auto job = read(kCabinet);
  REQUIRE(job);
  REQUIRE(job->work.size() == 5);
  const UnitWork& glue = job->work[0];
  CHECK(glue.kind == "glue");
  CHECK(glue.name == "glue the body up");
  CHECK(glue.units == std::vector<int>{0});
  CHECK(glue.before_finish);
  CHECK(glue.work.minutes() == Approx(40));
  CHECK(glue.people == 2);
  CHECK(glue.at_bench);
  CHECK(glue.glue == "pva-yellow");

  CHECK(job->work[1].before_finish);
  CHECK_FALSE(job->work[1].at_bench);
  CHECK_FALSE(job->work[2].before_finish);
  CHECK(job->work[2].needs == Stage::kTackFree);
  CHECK(job->work[3].units == std::vector<int>{0, 1, 2});
  CHECK(job->work[3].needs == Stage::kDryHard);
  CHECK(job->work[4].name == "deliver");
  CHECK(job->work[4].units == std::vector<int>{0, 1, 2, 3});
  CHECK(job->work[4].needs == Stage::kPrintFree);
}

TEST_CASE("What is wrong with units is named", "[recipe]") {
  const std::string top = "format = 1\n" + part("top");
  check_refused(read(top + part("leg", "apart = true\n")),
                {"cabinet.toml", "line", "part[2].apart", "before assembly"});
  check_refused(read(top + part("leg", "count = 51\nfinish = \"before assembly\"\napart = true\n")),
                {"part[2].apart", "50"});
  check_refused(read(top + part("leg", "finish = \"later\"\n")), {"part[2].finish", "later"});
  check_refused(read("format = 1\n" + part("a", "unit = \"legs\"\n") +
                     part("b", "unit = \"legs\"\nfinish = \"before assembly\"\n")),
                {"\"a\"", "\"b\"", "legs", "same finish"});
  check_refused(read(top + part("top", "finish = \"before assembly\"\n")), {"top", "another name"});
  check_refused(read(top + "[[unit]]\nname = \"doors\"\n"), {"unit[1].name", "doors"});
  check_refused(read(top + "[[unit]]\nname = \"all\"\n[[unit]]\nname = \"all\"\n"),
                {"unit[2].name", "once"});
  check_refused(read(top + "[[unit]]\nname = \"all\"\nfaces = \"one\"\n"),
                {"unit[1].faces", "both faces"});
  check_refused(read(with(kCabinet, "schedule = \"hardwax-oil\"", "faces = \"points\"")),
                {"unit[2].faces", "one face"});
  check_refused(read(top + "[[unit]]\nname = \"all\"\ncolour = 1\n"), {"unit[1].colour"});
}

TEST_CASE("What is wrong with work is named", "[recipe]") {
  check_refused(read(with(kCabinet, "glue = \"pva-yellow\"", "")), {"work[1].glue", "missing"});
  check_refused(read(with(kCabinet, "kind = \"mask\"", "kind = \"mask\"\nglue = \"epoxy\"")),
                {"work[2].glue", "epoxy"});
  check_refused(read(with(kCabinet, "when = \"before finishing\"\n", "")), {"work[1].when"});
  check_refused(read(with(kCabinet, "kind = \"unmask\"", "kind = \"paint\"")),
                {"work[3].kind", "paint", "dry_fit"});
  check_refused(
      read(with(kCabinet, "kind = \"deliver\"", "kind = \"deliver\"\nwhen = \"before finishing\"")),
      {"work[5].when", "after finishing"});
  check_refused(read(with(kCabinet, "parts = [\"side\", \"door\"]", "parts = [\"drawer\"]")),
                {"work[4].parts", "drawer"});
  check_refused(read(with(kCabinet, "parts = [\"body\"]", "parts = [\"body\", \"back\"]")),
                {"work[1]", "one thing"});
  check_refused(read(with(kCabinet, "minutes = 30", "minutes = 0")), {"work[4].minutes", "0"});
  check_refused(read(with(kCabinet, "people = 2", "people = 0")), {"work[1].people"});
  check_refused(read(with(kCabinet, "minutes = 10", "minutes = 10\nneeds = \"handle\"")),
                {"work[2].needs", "after finishing"});
  check_refused(read(with(kCabinet, "\"dry-hard\"", "\"dry\"")), {"work[4].needs", "dry-hard"});
}

TEST_CASE("Work before the finishing stands ahead of work after it", "[recipe]") {
  check_refused(read(kCabinet + "[[work]]\nkind = \"sand\"\nparts = [\"back\"]\nminutes = 5\n"),
                {"work[6]", "order"});
}

TEST_CASE("A list of parts may be read from a file that also says how they are joined",
          "[recipe]") {
  const auto parts = read_part_list(kCabinet, "cabinet.toml");
  REQUIRE(parts);
  CHECK(parts->size() == 4);
  CHECK((*parts)[2].apart);
}
