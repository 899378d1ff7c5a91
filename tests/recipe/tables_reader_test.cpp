#include "recipe/tables_reader.h"

#include <catch2/catch.hpp>

#include "recipe/recipe_texts.h"

using namespace coatwright;
using test::check_refused;
using test::line_of;
using test::with;

namespace {

const std::string kPairs = R"(format = 1
[[pair]]
under = "a-stain"
over = "a-varnish"
verdict = "within window"
reason = "bites"
source = "judgement"
how = "common practice"
dissent = "some wait longer"
[[pair.interval]]
condition = "none"
opens_low_hours = 12
opens_high_hours = 24
closes_low_hours = 72
closes_high_hours = 72

[[pair]]
under = "a-wax"
over = "a-varnish"
verdict = "barrier first"
barriers = ["a-shellac"]
reason = "does not stick"
source = "judgement"
how = "read"
[[pair.interval]]
condition = "never"
)";

const std::string kWoods = R"(format = 1
[[species]]
name = "red-oak"
title = "Red oak"
pores = "ring"
density_kg_per_m3 = 700
blotches = false
oily = false
tannin = true
fills = true
source = "judgement"
radial_shrinkage_percent = 4
tangential_shrinkage_percent = 8.6
shrinkage_source = "from-memory"
)";

const std::string kTimes = R"(format = 1
[[operation]]
name = "sand-P120"
low_minutes_per_m2 = 4
high_minutes_per_m2 = 9
fixed_minutes = 6
source = "judgement"

[[operation]]
name = "flip"
fixed_minutes = 3
source = "judgement"
)";

}  // namespace

TEST_CASE("The compatibility table is read pair by pair", "[recipe]") {
  // Consistency check: the format is ours.
  const Result<Compatibility> pairs = parse_compatibility(kPairs, "pairs.toml");
  REQUIRE(pairs);
  REQUIRE(pairs->size() == 2);
  const PairEntry& stain = pairs->at({"a-stain", "a-varnish"});
  CHECK(stain.rule.verdict == PairVerdict::kWithinWindow);
  CHECK(stain.rule.dissent == "some wait longer");
  REQUIRE(stain.intervals.size() == 1);
  CHECK(stain.intervals[0].opens->low().hours() == 12.0);
  CHECK(stain.intervals[0].closes->high().hours() == 72.0);
  CHECK(stain.intervals[0].reason == "bites");
  const PairEntry& wax = pairs->at({"a-wax", "a-varnish"});
  CHECK(wax.rule.barriers == std::vector<std::string>{"a-shellac"});
  CHECK(wax.intervals[0].condition == RecoatCondition::kNever);
}

TEST_CASE("A wrong pair is refused where it stands", "[recipe]") {
  std::string text = with(kPairs, "how = \"read\"", "how = \"heard\"");
  check_refused(parse_compatibility(text, "pairs.toml"),
                {"pairs.toml", line_of(text, "how = \"heard\""), "pair[2].how", "from memory"});
  text = with(kPairs, "opens_high_hours = 24\n", "");
  check_refused(parse_compatibility(text, "pairs.toml"),
                {"pair[1].interval[1].opens_high_hours", "missing"});
  text = with(kPairs, "under = \"a-wax\"", "under = \"a-stain\"");
  check_refused(parse_compatibility(text, "pairs.toml"), {"pair[2].over", "once"});
  text = with(kPairs, "under = \"a-wax\"", "under = \"a-varnish\"");
  check_refused(parse_compatibility(text, "pairs.toml"), {"pair[2].over", "[[recoat]]"});
}

TEST_CASE("A verdict must agree with the intervals", "[recipe]") {
  const auto stain = [](const std::string& verdict) {
    return parse_compatibility(with(kPairs, "\"within window\"", verdict), "pairs.toml");
  };
  CHECK(stain("\"ok\"").has_value());
  CHECK(stain("\"full cure first\"").has_value());
  check_refused(stain("\"fine\""), {"pair[1].verdict", "found \"fine\"", "within window"});
  check_refused(stain("\"abrade first\""), {"pair[1].verdict", "of condition \"abrade\""});
  check_refused(stain("\"barrier first\""), {"pair[1].verdict", "\"never\" alone, and barriers"});
  check_refused(stain("\"never\""), {"pair[1].verdict", "\"never\" alone"});

  const auto wax = [](const std::string& verdict) {
    return parse_compatibility(with(kPairs, "\"barrier first\"", verdict), "pairs.toml");
  };
  CHECK(wax("\"never\"").has_value());
  check_refused(wax("\"ok\""), {"pair[2].verdict", "of condition \"none\""});
  check_refused(wax("\"within window\""), {"pair[2].verdict", "that closes"});
  check_refused(wax("\"full cure first\""), {"pair[2].verdict", "that opens"});
  check_refused(parse_compatibility(with(kPairs, "barriers = [\"a-shellac\"]\n", ""), "pairs.toml"),
                {"pair[2].verdict", "and barriers"});
}

TEST_CASE("An interval opens with a stage or with hours, not both", "[recipe]") {
  const std::string hours = "opens_low_hours = 12\nopens_high_hours = 24\n";
  const Result<Compatibility> pairs =
      parse_compatibility(with(kPairs, hours, "opens_with = \"full-cure\"\n"), "pairs.toml");
  REQUIRE(pairs);
  CHECK(pairs->at({"a-stain", "a-varnish"}).intervals[0].opens_with == Stage::kFullCure);
  check_refused(parse_compatibility(with(kPairs, hours, hours + "opens_with = \"full-cure\"\n"),
                                    "pairs.toml"),
                {"pair[1].interval[1].opens_with", "either"});
  check_refused(parse_compatibility(with(kPairs, hours, "opens_with = \"cured\"\n"), "pairs.toml"),
                {"pair[1].interval[1].opens_with", "found \"cured\"", "full-cure"});
}

TEST_CASE("Woods are read, and a wrong one is refused", "[recipe]") {
  const Result<SpeciesTable> woods = parse_species(kWoods, "woods.toml");
  REQUIRE(woods);
  const Species& oak = woods->find("red-oak")->second;
  CHECK(oak.pores == Pores::kRing);
  CHECK(oak.tannin);
  CHECK_FALSE(oak.oily);
  CHECK(oak.fills);
  CHECK(oak.tangential_shrinkage_percent == 8.6);
  CHECK(oak.shrinkage_source == "from-memory");
  const std::string text = with(kWoods, "density_kg_per_m3 = 700", "density_kg_per_m3 = 0.7");
  check_refused(parse_species(text, "woods.toml"),
                {"woods.toml", line_of(text, "density"), "found 0.7", "80 to 1400"});
  check_refused(parse_species(with(kWoods, "\"ring\"", "\"big\""), "woods.toml"),
                {"species[1].pores", "ring, semi-ring, diffuse, softwood"});
  check_refused(parse_species(with(kWoods, "\"ring\"", "\"softwood\""), "woods.toml"),
                {"species[1].fills", "no pores"});
  check_refused(
      parse_species(with(kWoods, "radial_shrinkage_percent = 4\ntan", "tan"), "woods.toml"),
      {"species[1].radial_shrinkage_percent", "missing"});
}

TEST_CASE("The work on an area takes the fixed time and its share per square metre", "[recipe]") {
  const Result<WorkingTimes> times = parse_working_times(kTimes, "times.toml");
  REQUIRE(times);
  const WorkingTime& sand = times->find("sand-P120")->second;
  // The percentiles are those of the file by definition of a range; the median of a log-normal is
  // the geometric mean of any two percentiles that lie symmetrically about it: sqrt(4 * 9) = 6.
  CHECK(sand.duration(Area::from_square_metres(2), 0.1).minutes() == Approx(6 + 8));
  CHECK(sand.duration(Area::from_square_metres(2), 0.9).minutes() == Approx(6 + 18));
  CHECK(sand.duration(Area::from_square_metres(2), 0.5).minutes() == Approx(6 + 12));
  CHECK(sand.duration(Area::from_square_metres(0), 0.9).minutes() == Approx(6));
  const WorkingTime& flip = times->find("flip")->second;
  CHECK(flip.duration(Area::from_square_metres(5), 0.9).minutes() == Approx(3));
}

TEST_CASE("A wrong working time is refused", "[recipe]") {
  check_refused(parse_working_times(with(kTimes, "fixed_minutes = 3\n", ""), "times.toml"),
                {"operation[2]", "takes no time"});
  check_refused(
      parse_working_times(with(kTimes, "high_minutes_per_m2 = 9", "high_minutes_per_m2 = 3"),
                          "times.toml"),
      {"operation[1].high_minutes_per_m2", "found 3", "at least low_minutes_per_m2, 4"});
  check_refused(parse_working_times(with(kTimes, "\"flip\"", "\"sand-P120\""), "times.toml"),
                {"operation[2].name", "once"});
  check_refused(parse_working_times("format = 1\n", "times.toml"), {"operation", "missing"});
}
