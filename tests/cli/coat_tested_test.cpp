#include "cli/coat_tested.h"

#include <catch2/catch.hpp>

#include "store/log_samples.h"

namespace coatwright {
namespace {

using samples::at;

const Time kMorning = at("2027-03-06T08:00:00Z");

Time after(int hours) {
  return kMorning + std::chrono::hours(hours);
}

LogEntry coat(std::int64_t id, int hour, const std::string& part, const std::string& face) {
  LogEntry entry = samples::coat("table", after(hour));
  entry.id = id;
  entry.part = part;
  entry.face = face;
  return entry;
}

LogEntry touch(std::int64_t id,
               int hour,
               const std::string& words,
               const std::string& part = "",
               const std::string& face = "") {
  LogEntry entry = samples::step("table", "touch", after(hour));
  const auto finding = touch_finding_named(words);
  REQUIRE(finding);
  entry.id = id;
  entry.kind = LogKind::kTouch;
  entry.part = part;
  entry.face = face;
  entry.touch = LoggedTouch{words, finding->stage, finding->reached};
  return entry;
}

StoredPiece table(PieceFaces faces = PieceFaces::kOne) {
  StoredPiece piece = samples::piece("table");
  piece.faces = faces;
  return piece;
}

/// A table that is finished as a top with two faces and legs with one.
StoredPiece divided_table() {
  StoredPiece piece = table();
  piece.units = {{"top", Area::from_square_metres(1), PieceFaces::kTwo, 1, "", ""},
                 {"legs", Area::from_square_metres(1), PieceFaces::kOne, 1, "", ""}};
  return piece;
}

std::vector<std::int64_t> found_on(const LogEntry& finding,
                                   const StoredPiece& piece,
                                   const std::vector<LogEntry>& log) {
  std::vector<std::int64_t> numbers;
  for (const CoatBeneath& beneath : coats_found_on(finding, piece, log)) {
    numbers.push_back(beneath.coat->id);
  }
  return numbers;
}

using Numbers = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("A finding is of the last coat before it that is not struck out", "[cli]") {
  std::vector<LogEntry> log = {coat(1, 0, "", ""), coat(2, 4, "", ""), coat(3, 9, "", "")};
  CHECK(found_on(touch(9, 5, "tacky"), table(), log) == Numbers{2});
  log[1].strike = LogStrike{"wrong piece", after(5)};
  CHECK(found_on(touch(9, 5, "tacky"), table(), log) == Numbers{1});
  CHECK(found_on(touch(9, -1, "tacky"), table(), log).empty());
}

TEST_CASE("A finding is of the coats on its own faces", "[cli]") {
  const std::vector<LogEntry> log = {coat(1, 0, "", "back"), coat(2, 4, "", "front")};
  const StoredPiece piece = table(PieceFaces::kTwo);
  CHECK(found_on(touch(9, 5, "tacky", "", "front"), piece, log) == Numbers{2});
  CHECK(found_on(touch(9, 5, "tacky", "", "back"), piece, log) == Numbers{1});
  CHECK(found_on(touch(9, 5, "tacky"), piece, log) == Numbers{2, 1});
  CHECK(found_on(touch(9, 2, "tacky"), piece, log) == Numbers{1});
}

TEST_CASE("A finding without a part may be of each part that was coated", "[cli]") {
  const std::vector<LogEntry> log = {coat(1, 0, "", ""), coat(2, 4, "top", "")};
  CHECK(found_on(touch(9, 5, "tacky"), table(), log) == Numbers{2, 1});
  CHECK(found_on(touch(9, 5, "tacky", "top"), table(), log) == Numbers{2});
  CHECK(found_on(touch(9, 5, "tacky", "leg"), table(), log) == Numbers{1});
  const std::vector<LogEntry> top_alone = {coat(2, 4, "top", "")};
  CHECK(found_on(touch(9, 5, "tacky"), table(), top_alone) == Numbers{2});
}

TEST_CASE("A finding on a divided piece may be of each of its units", "[cli]") {
  const std::vector<LogEntry> log = {
      coat(1, 0, "", "both"), coat(2, 4, "top", "front"), coat(3, 5, "legs", "")};
  CHECK(found_on(touch(9, 6, "tacky"), divided_table(), log) == Numbers{2, 1, 3});
  CHECK(found_on(touch(9, 6, "tacky", "top", "front"), divided_table(), log) == Numbers{2});
  CHECK(found_on(touch(9, 6, "tacky", "top", "back"), divided_table(), log) == Numbers{1});
  CHECK(found_on(touch(9, 6, "tacky", "legs"), divided_table(), log) == Numbers{3});
}

TEST_CASE("A coat that is wiped off has ended with its wiping", "[cli]") {
  std::vector<LogEntry> log = {coat(1, 0, "", "")};
  log.push_back(samples::step("table", "wipe", after(1)));
  const auto coats = coats_found_on(touch(9, 5, "tacky"), table(), log);
  REQUIRE(coats.size() == 1);
  CHECK(coats.front().ended == after(1));
}

TEST_CASE("A touch test is of one coat, or it is asked of which", "[cli]") {
  const Zone zone = *Zone::find("UTC");
  const std::vector<LogEntry> log = {coat(1, 0, "", "back"), coat(2, 4, "", "front")};
  const StoredPiece piece = table(PieceFaces::kTwo);
  const auto one = coat_tested(touch(9, 5, "tacky", "", "back"), piece, log, zone);
  REQUIRE(one);
  CHECK(one->coat->id == 1);
  const auto several = coat_tested(touch(9, 5, "tacky"), piece, log, zone);
  REQUIRE_FALSE(several);
  CHECK(several.error().code == ErrorCode::kUsage);
  CHECK_THAT(several.error().text(),
             Catch::Contains("--face") && Catch::Contains("entry 1") && Catch::Contains("entry 2"));
  const auto none = coat_tested(touch(9, 2, "tacky", "", "front"), piece, log, zone);
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::kUsage);
  CHECK_THAT(none.error().text(), Catch::Contains("no coat") && Catch::Contains("on the back"));
}

TEST_CASE("Only tests of the same coat at the same place contradict each other", "[cli]") {
  const std::vector<TouchContradiction> pair = {{5, 9}};
  std::vector<LogEntry> log = {coat(1, 0, "", "both"), touch(5, 2, "hard", "", "front")};
  const StoredPiece piece = table(PieceFaces::kTwo);
  CHECK(contradictions_with(touch(9, 6, "tacky", "", "front"), piece, log) == pair);
  CHECK(contradictions_with(touch(9, 6, "tacky"), piece, log) == pair);
  CHECK(contradictions_with(touch(9, 6, "tacky", "", "back"), piece, log).empty());
  CHECK(contradictions_with(touch(9, 1, "tacky", "", "front"), piece, log).empty());

  log.push_back(coat(6, 4, "", "both"));
  CHECK(contradictions_with(touch(9, 6, "tacky", "", "front"), piece, log).empty());
  log.back().strike = LogStrike{"not yet", after(5)};
  CHECK(contradictions_with(touch(9, 6, "tacky", "", "front"), piece, log) == pair);
  log[1].strike = LogStrike{"that was the bench", after(6)};
  CHECK(contradictions_with(touch(9, 6, "tacky", "", "front"), piece, log).empty());
}

TEST_CASE("Of contradictions those that this test is not part of are not told again", "[cli]") {
  const std::vector<LogEntry> log = {coat(1, 0, "", ""), touch(5, 2, "hard"), touch(6, 3, "tacky")};
  CHECK(contradictions_with(touch(9, 6, "dry through"), table(), log).empty());
  const std::vector<TouchContradiction> pair = {{5, 9}};
  CHECK(contradictions_with(touch(9, 6, "soft"), table(), log) == pair);
}

}  // namespace coatwright
