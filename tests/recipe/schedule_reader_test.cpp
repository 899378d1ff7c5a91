#include "recipe/schedule_reader.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::kSchedule;
using test::line_of;
using test::with;

namespace {

const std::string kLabel = "own/test-finish.toml";

void check_bent(std::string_view passage,
                const std::string& other,
                std::vector<std::string> parts) {
  const std::string text = with(kSchedule, passage, other);
  parts.push_back(kLabel);
  parts.push_back(line_of(text, other));
  check_refused(parse_schedule(text, kLabel), parts);
}

}  // namespace

TEST_CASE("A schedule is read with its steps in order", "[recipe]") {
  // Consistency check: the format is ours.
  const Result<Schedule> schedule = parse_schedule(kSchedule, kLabel, "test-finish");
  REQUIRE(schedule);
  CHECK(schedule->tools == std::vector<std::string>{"brush"});
  REQUIRE(schedule->steps.size() == 5);
  CHECK(schedule->steps[0].kind == ScheduleStepKind::kSample);
  CHECK(schedule->steps[0].note == "On an off-cut.");
  CHECK(schedule->steps[1].grits == std::vector<std::string>{"P120", "P180"});
  const ScheduleStep& coat = schedule->steps[2];
  CHECK(coat.kind == ScheduleStepKind::kCoat);
  CHECK(coat.product == "test-varnish");
  CHECK(coat.method == Method::kBrush);
  CHECK(coat.coats == 2);
  CHECK(coat.wet_film->micrometres() == 75.0);
  CHECK(schedule->steps[3].kind == ScheduleStepKind::kAbrade);
}

TEST_CASE("A coat is put on once where its step does not say how often", "[recipe]") {
  const Result<Schedule> schedule = parse_schedule(with(kSchedule, "coats = 2\n", ""), kLabel);
  REQUIRE(schedule);
  CHECK(schedule->steps[2].coats == 1);
}

TEST_CASE("A coat may be thinned with a solvent that is known, with its amount", "[recipe]") {
  const std::string thinned = with(kSchedule,
                                   "wet_film_um = 75",
                                   "wet_film_um = 75\nthinner = \"2-butoxyethanol\"\n"
                                   "thinner_percent = 5");
  const Result<Schedule> schedule = parse_schedule(thinned, kLabel);
  REQUIRE(schedule);
  REQUIRE(schedule->steps[2].thinning);
  CHECK(schedule->steps[2].thinning->thinner.solvent == "2-butoxyethanol");
  CHECK(schedule->steps[2].thinning->share == Approx(0.05));
  for (const char* wrong : {"thinner = \"2-butoxyethanol\"",
                            "thinner_percent = 5",
                            "thinner = \"water\"\nthinner_percent = 5",
                            "thinner = \"acetone\"\nthinner_percent = 80"}) {
    INFO(wrong);
    CHECK_FALSE(parse_schedule(
        with(kSchedule, "wet_film_um = 75", std::string("wet_film_um = 75\n") + wrong), kLabel));
  }
}

TEST_CASE("A step's keys are those of its kind", "[recipe]") {
  check_bent("note = \"On an off-cut.\"",
             "grits = [\"P120\"]",
             {"step[1].grits", "unknown key", "kind, note, woods"});
  check_bent("kind = \"sample\"",
             "kind = \"varnish\"",
             {"step[1].kind",
              "found \"varnish\"",
              "sample, sand, raise-grain, wash, coat, abrade, rub-out"});
  check_bent(
      "method = \"brush\"", "method = \"dip\"", {"step[3].method", "wipe, brush, pad, spray"});
}

TEST_CASE("Coats are counted in whole numbers", "[recipe]") {
  check_bent("coats = 2", "coats = 2.5", {"step[3].coats", "found 2.5", "a whole number, 1 to 10"});
  check_bent("coats = 2", "coats = 11", {"step[3].coats", "found 11", "1 to 10"});
}

TEST_CASE("Grits are known ones and run from coarse to fine", "[recipe]") {
  check_bent("\"P180\"]", "\"P185\"]", {"step[2].grits", "found \"P185\"", "P180"});
  check_bent("\"P180\"]", "\"P100\"]", {"step[2].grits", "found P100 after P120"});
  check_bent("[\"P320\"]", "[\"P320\", \"P400\"]", {"step[4].grits", "found 2 grits", "one"});
  check_bent("[\"P320\"]", "[]", {"step[4].grits", "found an empty list"});
}

TEST_CASE("A schedule has a coat, and the name of its file", "[recipe]") {
  check_refused(parse_schedule(kSchedule, kLabel, "other"), {"line 2:", "\"other\""});
  const std::string head = kSchedule.substr(0, kSchedule.find("[[step]]\nkind = \"coat\""));
  check_refused(parse_schedule(head, kLabel), {"step", "no step is a coat"});
  check_refused(parse_schedule(head.substr(0, head.find("[[step]]")), kLabel),
                {"step", "missing", "[[step]]"});
}

TEST_CASE("Abrading without a coat before or after it is refused", "[recipe]") {
  const std::string sand = "kind = \"sand\"\ngrits = [\"P120\", \"P180\"]";
  check_refused(
      parse_schedule(with(kSchedule, sand, "kind = \"abrade\"\ngrits=[\"P220\"]"), kLabel),
      {"step", "before the first coat"});
  const std::string last = "[[step]]\nkind=\"coat\"\nproduct=\"test-varnish\"\nmethod=\"brush\"\n";
  check_refused(parse_schedule(with(kSchedule, last, ""), kLabel), {"step", "after the last coat"});
}
