#include "drying/touch_test.h"

#include <array>
#include <map>
#include <random>
#include <utility>

#include <catch2/catch.hpp>

using namespace coatwright;
using std::chrono::hours;

namespace {

const Time kCoat = Time(hours(24 * 20000));

constexpr std::array kStages = {Stage::kSetToTouch,
                                Stage::kDustFree,
                                Stage::kTackFree,
                                Stage::kDryHard,
                                Stage::kDryThrough,
                                Stage::kSandable,
                                Stage::kRecoat,
                                Stage::kHandle,
                                Stage::kPrintFree,
                                Stage::kLightUse,
                                Stage::kFullCure};

TouchTest test(std::int64_t id, int after, const char* words) {
  const auto finding = touch_finding_named(words);
  REQUIRE(finding);
  return {id, kCoat + hours(after), finding->stage, finding->reached};
}

std::vector<TouchContradiction> contradictions(std::vector<TouchTest> tests) {
  return touch_contradictions(tests);
}

}  // namespace

// EVIDENCE: astm_d1640 the definition of each stage by its test; sandable and print-free as the
// trade uses them (common practice)
TEST_CASE("What a touch test finds tells of one stage", "[drying]") {
  const std::map<std::string, std::pair<std::string, bool>> by_standard = {
      {"wet", {"set-to-touch", false}},
      {"set to touch", {"set-to-touch", true}},
      {"dust sticks", {"dust-free", false}},
      {"dust-free", {"dust-free", true}},
      {"tacky", {"tack-free", false}},
      {"tack-free", {"tack-free", true}},
      {"gums the paper", {"sandable", false}},
      {"sands to powder", {"sandable", true}},
      {"thumb leaves a print", {"print-free", false}},
      {"no print", {"print-free", true}},
      {"soft", {"dry-hard", false}},
      {"hard", {"dry-hard", true}},
      {"thumb twists the film", {"dry-through", false}},
      {"dry through", {"dry-through", true}},
  };
  CHECK(touch_findings().size() == by_standard.size());
  for (const auto& [words, meant] : by_standard) {
    INFO(words);
    const auto finding = touch_finding_named(words);
    REQUIRE(finding);
    CHECK(name_of(finding->stage) == meant.first);
    CHECK(finding->reached == meant.second);
  }
}

TEST_CASE("Every finding says in sentences what was seen and what to do", "[drying]") {
  for (const TouchFinding& finding : touch_findings()) {
    INFO(finding.words);
    CHECK(finding.means.ends_with('.'));
    CHECK(finding.to_do.ends_with('.'));
    CHECK(touch_finding_named(finding.words)->means == finding.means);
  }
}

TEST_CASE("The words of a touch test may be typed as the maker likes", "[drying]") {
  CHECK(touch_finding_named("TACK free")->words == "tack-free");
  CHECK(touch_finding_named("dry-through")->words == "dry through");
  CHECK(touch_finding_named("Set-To-Touch")->words == "set to touch");
}

TEST_CASE("Other words are refused with all that are known", "[drying]") {
  for (const char* text : {"", "dry", "tackyy", "not tacky"}) {
    const auto none = touch_finding_named(text);
    REQUIRE_FALSE(none);
    CHECK(none.error().code == ErrorCode::kUsage);
    for (const TouchFinding& finding : touch_findings()) {
      CHECK_THAT(none.error().text(), Catch::Contains(std::string(finding.words)));
    }
  }
}

// EVIDENCE: astm_d1640 the order in which the stages are named
TEST_CASE("The stages of the standard come in its order", "[drying]") {
  constexpr std::array kNamed = {
      Stage::kSetToTouch, Stage::kDustFree, Stage::kTackFree, Stage::kDryHard, Stage::kDryThrough};
  for (std::size_t i = 0; i < kNamed.size(); ++i) {
    for (std::size_t j = 0; j < kNamed.size(); ++j) {
      CHECK(comes_before_or_with(kNamed[i], kNamed[j]) == (i <= j));
    }
  }
}

TEST_CASE("A tacky film can neither be sanded nor stacked, and full cure is last", "[drying]") {
  // Common practice: a tacky film gums the paper and takes prints.
  CHECK(comes_before_or_with(Stage::kTackFree, Stage::kSandable));
  CHECK(comes_before_or_with(Stage::kSetToTouch, Stage::kPrintFree));
  for (const Stage stage : kStages) {
    CHECK(comes_before_or_with(stage, Stage::kFullCure));
  }
}

// iso_9117 part 5 (scope, secondary): its later stages may be reached out of turn.
TEST_CASE("Of stages that may come out of turn none is before the other", "[drying]") {
  const std::vector<std::pair<Stage, Stage>> pairs = {{Stage::kDryHard, Stage::kPrintFree},
                                                      {Stage::kDryThrough, Stage::kPrintFree},
                                                      {Stage::kSandable, Stage::kDryHard},
                                                      {Stage::kRecoat, Stage::kTackFree},
                                                      {Stage::kHandle, Stage::kDryThrough},
                                                      {Stage::kLightUse, Stage::kDryHard}};
  for (const auto& [one, other] : pairs) {
    CHECK_FALSE(comes_before_or_with(one, other));
    CHECK_FALSE(comes_before_or_with(other, one));
  }
}

// Consistency check.
TEST_CASE("What comes before what is a partial order", "[drying]") {
  for (const Stage a : kStages) {
    CHECK(comes_before_or_with(a, a));
    for (const Stage b : kStages) {
      CHECK((a == b || !comes_before_or_with(a, b) || !comes_before_or_with(b, a)));
      for (const Stage c : kStages) {
        CHECK((!comes_before_or_with(a, b) || !comes_before_or_with(b, c) ||
               comes_before_or_with(a, c)));
      }
    }
  }
}

TEST_CASE("A coat that was hard and is tacky later contradicts itself", "[drying]") {
  const std::vector<TouchContradiction> one = {{4, 7}};
  CHECK(contradictions({test(4, 2, "hard"), test(7, 6, "tacky")}) == one);
  CHECK(contradictions({test(7, 6, "tacky"), test(4, 2, "hard")}) == one);
  CHECK(contradictions({test(4, 2, "tack-free"), test(7, 6, "tacky")}) == one);
  CHECK(contradictions({test(4, 2, "sands to powder"), test(7, 6, "wet")}) == one);
  // At one time it cannot be both.
  CHECK(contradictions({test(4, 2, "hard"), test(7, 2, "soft")}) == one);
}

TEST_CASE("A coat that goes on drying does not contradict itself", "[drying]") {
  CHECK(contradictions({}).empty());
  CHECK(contradictions({test(1, 2, "tacky"), test(2, 6, "hard")}).empty());
  CHECK(contradictions({test(1, 2, "hard"), test(2, 6, "thumb twists the film")}).empty());
  CHECK(contradictions({test(1, 2, "hard"), test(2, 6, "thumb leaves a print")}).empty());
  CHECK(contradictions({test(1, 2, "no print"), test(2, 6, "soft")}).empty());
  CHECK(contradictions({test(1, 2, "tacky"), test(2, 6, "tacky")}).empty());
  CHECK(contradictions({test(1, 2, "tack-free"), test(2, 6, "tack-free")}).empty());
}

TEST_CASE("Each pair that contradicts is named", "[drying]") {
  const auto found =
      contradictions({test(1, 2, "hard"), test(2, 3, "tacky"), test(3, 4, "dust sticks")});
  CHECK(found == std::vector<TouchContradiction>{{1, 2}, {1, 3}});
}

// The coat is played by another rule than the one under test: every stage gets a moment of its own,
// each of the standard's no sooner than the one before, and tests are told truly.
TEST_CASE("True tests of a coat that dries never contradict each other", "[drying]") {
  std::mt19937 random(7);
  const auto within = [&](int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random);
  };
  for (int round = 0; round < 500; ++round) {
    std::map<Stage, int> reached;
    reached[Stage::kSetToTouch] = within(0, 5);
    reached[Stage::kDustFree] = reached[Stage::kSetToTouch] + within(0, 5);
    const int tack_free = reached[Stage::kDustFree] + within(0, 5);
    reached[Stage::kTackFree] = tack_free;
    reached[Stage::kDryHard] = tack_free + within(0, 9);
    reached[Stage::kDryThrough] = reached[Stage::kDryHard] + within(0, 9);
    reached[Stage::kSandable] = tack_free + within(0, 20);
    reached[Stage::kPrintFree] = tack_free + within(0, 20);
    std::vector<TouchTest> tests;
    for (int i = 0; i < 12; ++i) {
      const auto stage = std::next(reached.begin(), within(0, 6));
      const int at = within(0, 40);
      tests.push_back({i, kCoat + hours(at), stage->first, at >= stage->second});
    }
    CHECK(touch_contradictions(tests).empty());
  }
}
