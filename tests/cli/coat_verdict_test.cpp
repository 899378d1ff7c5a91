#include "cli/coat_verdict.h"

#include <catch2/catch.hpp>

#include "store/log_samples.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;
using samples::step;
using std::chrono::hours;

const Time kNow = at("2027-03-10T10:00:00Z");

/// A piece's log in the making, and what a new coat is judged on.
class Log {
 public:
  explicit Log(PieceFaces faces) : piece_(samples::piece("table")) { piece_.faces = faces; }

  /// A coat of shellac so many hours ago. @return its number.
  std::int64_t coat(int hours_ago, const std::string& face, const std::string& part = "") {
    LogEntry& entry = add("apply", hours_ago, face, part);
    entry.kind = LogKind::kCoat;
    entry.product = "dewaxed-shellac";
    entry.revision = "0000000000000000";  // not in the store: the coat cannot be judged on it
    return entry.id;
  }
  LogEntry& add(const std::string& kind,
                int hours_ago,
                const std::string& face,
                const std::string& part = "") {
    LogEntry entry = step("table", kind, kNow - hours(hours_ago));
    entry.id = static_cast<std::int64_t>(entries_.size()) + 1;
    entry.face = face;
    entry.part = part;
    entries_.push_back(entry);
    return entries_.back();
  }
  void strike_last() { entries_.back().strike = LogStrike{"wrong", kNow}; }

  [[nodiscard]] JudgedCoat judge(const std::string& face, const std::string& part = "") const {
    const TemporaryFolder folder;
    GlobalOptions global;
    global.store = (folder / "shop.db").string();
    global.time_zone = "UTC";
    const auto session = open_session(global, Store::Mode::kRead);
    REQUIRE(session);
    LogEntry entry = step("table", "apply", kNow);
    entry.kind = LogKind::kCoat;
    entry.product = "dewaxed-shellac";
    entry.face = face;
    entry.part = part;
    auto judged = judge_by_log(entry, piece_, entries_, RecipeBook(), *session);
    REQUIRE(judged);
    return std::move(*judged);
  }
  [[nodiscard]] std::vector<std::int64_t> beneath(const std::string& face,
                                                  const std::string& part = "") const {
    std::vector<std::int64_t> numbers;
    for (const LogEntry& entry : judge(face, part).beneath) {
      numbers.push_back(entry.id);
    }
    return numbers;
  }

 private:
  StoredPiece piece_;
  std::vector<LogEntry> entries_;
};

using Numbers = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("A coat lies on the last coat of each of its faces", "[cli]") {
  Log log(PieceFaces::kTwo);
  const auto back = log.coat(48, "back");
  const auto front = log.coat(24, "front");
  CHECK(log.beneath("back") == Numbers{back});
  CHECK(log.beneath("front") == Numbers{front});
  CHECK(log.beneath("both") == Numbers{front, back});
  const auto both = log.coat(12, "both");
  CHECK(log.beneath("back") == Numbers{both});
  CHECK(log.beneath("both") == Numbers{both});
}

TEST_CASE("A coat lies on what is on its part or on the whole piece", "[cli]") {
  Log log(PieceFaces::kOne);
  CHECK(log.beneath("").empty());
  const auto whole = log.coat(48, "");
  const auto top = log.coat(24, "", "top");
  CHECK(log.beneath("", "top") == Numbers{top});
  CHECK(log.beneath("", "base") == Numbers{whole});
  CHECK(log.beneath("", "") == Numbers{top});
}

TEST_CASE("A coat that is struck out or later lies beneath none", "[cli]") {
  Log log(PieceFaces::kOne);
  const auto first = log.coat(48, "");
  log.coat(24, "");
  log.strike_last();
  log.coat(-1, "");
  CHECK(log.beneath("") == Numbers{first});
}

TEST_CASE("A step that was left out lays no coat", "[cli]") {
  Log log(PieceFaces::kOne);
  LogEntry& skipped = log.add("apply", 24, "");
  skipped.kind = LogKind::kSkip;
  CHECK(log.beneath("").empty());
}

TEST_CASE("Where nothing is known of the coat beneath, the finding says so", "[cli]") {
  Log log(PieceFaces::kOne);
  log.coat(24, "");
  const JudgedCoat judged = log.judge("");
  REQUIRE(judged.findings.size() == 1);
  CHECK(judged.findings.front().kind == "not judged");
  CHECK_THAT(judged.findings.front().text, Catch::Contains("dewaxed-shellac"));
  CHECK_FALSE(judged.findings.front().chance);
}

}  // namespace coatwright
