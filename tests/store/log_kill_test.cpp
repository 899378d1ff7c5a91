// The program itself, killed at random moments while it logs: what it has acknowledged is there.
// The number of kills is 200, or what COATWRIGHT_KILLS says.
#include <cstdlib>
#include <iostream>
#include <map>
#include <random>
#include <sstream>

#include <catch2/catch.hpp>

#include "store/child_process.h"
#include "store/database.h"
#include "store/log_samples.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using std::chrono::microseconds;

int kills_wanted() {
  constexpr int kUsual = 200;
  const char* text = std::getenv("COATWRIGHT_KILLS");
  return text == nullptr ? kUsual : std::atoi(text);
}

std::vector<std::string> call_of(const std::filesystem::path& store,
                                 const std::vector<std::string>& words) {
  std::vector<std::string> call = {COATWRIGHT_BINARY,
                                   "--store",
                                   store.string(),
                                   "--time-zone",
                                   "UTC",
                                   "--at-clock",
                                   "2027-03-06T10:00:00Z"};
  call.insert(call.end(), words.begin(), words.end());
  return call;
}

/// What is logged in the run of this number: a coat, or two steps at once.
std::vector<std::string> log_words(int run) {
  const std::string note = "run " + std::to_string(run);
  if (run % 2 == 0) {
    return {"coat", "table", "dewaxed-shellac", "--note", note};
  }
  return {"done", "sand", "P150", "P180", "--piece", "table", "--note", note};
}

/// The numbers in "Logged entry N for ...".
std::vector<std::int64_t> acknowledged_in(const std::string& output) {
  static const std::string kStart = "Logged entry ";
  std::vector<std::int64_t> numbers;
  std::istringstream lines(output);
  for (std::string line; std::getline(lines, line);) {
    // A line that the kill has cut acknowledges nothing.
    if (line.starts_with(kStart) && line.find(" for ") != std::string::npos) {
      numbers.push_back(std::stoll(line.substr(kStart.size())));
    }
  }
  return numbers;
}

/// The acknowledged entries of all runs, with the run of each.
using Acknowledged = std::map<std::int64_t, int>;

void note(const ChildOutcome& outcome, int run, Acknowledged& acknowledged) {
  for (const std::int64_t number : acknowledged_in(outcome.output)) {
    CHECK(acknowledged.emplace(number, run).second);
  }
}

/// Runs that are let end. @return how long one takes.
microseconds run_to_the_end(const std::filesystem::path& store,
                            int runs,
                            Acknowledged& acknowledged) {
  const auto begin = std::chrono::steady_clock::now();
  for (int run = 0; run < runs; ++run) {
    const auto outcome = run_child(call_of(store, log_words(run)));
    REQUIRE(outcome.exit_code == 0);
    note(outcome, run, acknowledged);
  }
  return std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - begin) / runs;
}

std::string integrity_of(const std::filesystem::path& path) {
  const auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  auto query = database->prepare("PRAGMA integrity_check");
  REQUIRE(query);
  REQUIRE(query->step());
  return query->text(0);
}

std::int64_t broken_references(const std::filesystem::path& path) {
  const auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  return database->integer_of("SELECT count(*) FROM pragma_foreign_key_check").value();
}

Store store_with_table(const std::filesystem::path& path) {
  auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE(store);
  REQUIRE(store->add_piece(samples::piece("table")));
  return std::move(*store);
}

/// Every acknowledged entry is in the log with its own run's note.
void check_acknowledged(const std::vector<LogEntry>& log, const Acknowledged& acknowledged) {
  std::map<std::int64_t, std::string> notes;
  for (const LogEntry& entry : log) {
    notes[entry.id] = entry.note;
  }
  for (const auto& [number, run] : acknowledged) {
    INFO("entry " << number);
    CHECK(notes[number] == "run " + std::to_string(run));
  }
}

/// What a run has logged is there whole: a coat with its findings, both steps.
void check_whole(const std::vector<LogEntry>& log) {
  std::map<std::string, int> steps;
  for (const LogEntry& entry : log) {
    if (entry.kind == LogKind::kCoat) {
      CHECK_FALSE(entry.findings.empty());
      CHECK_FALSE(entry.revision.empty());
    } else {
      ++steps[entry.note];
    }
  }
  for (const auto& [run, count] : steps) {
    INFO(run);
    CHECK(count == 2);
  }
}

}  // namespace

TEST_CASE("Nothing that was acknowledged is lost when the program is killed", "[store]") {
  constexpr int kWarmUps = 6;
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  const Store store = store_with_table(path);
  Acknowledged acknowledged;
  const microseconds length = run_to_the_end(path, kWarmUps, acknowledged);
  const int wanted = kills_wanted();
  REQUIRE(wanted > 0);
  int killed = 0;
  int killed_acknowledged = 0;
  std::mt19937 numbers(20270306);
  // Past the usual length too, so that kills fall after the answer as well as before it.
  std::uniform_int_distribution<long> delay(0, length.count() * 5 / 4);
  for (int run = kWarmUps; killed < wanted; ++run) {
    REQUIRE(run < 20 * (wanted + kWarmUps));
    const auto outcome = run_child(call_of(path, log_words(run)), microseconds(delay(numbers)));
    REQUIRE((outcome.killed || outcome.exit_code == 0));
    killed += outcome.killed ? 1 : 0;
    killed_acknowledged += outcome.killed && !acknowledged_in(outcome.output).empty() ? 1 : 0;
    note(outcome, run, acknowledged);
  }
  const auto log = store.log("table").value();
  std::cout << killed << " kills, " << killed_acknowledged << " of them after the answer; "
            << log.size() << " entries, " << acknowledged.size() << " acknowledged\n";
  check_acknowledged(log, acknowledged);
  check_whole(log);
  CHECK(integrity_of(path) == "ok");
  CHECK(broken_references(path) == 0);
}

TEST_CASE("Two programs that log at once lose nothing", "[store]") {
  constexpr int kEach = 100;
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  const Store store = store_with_table(path);
  const auto work = [&path](const std::string& maker, int& logged) {
    for (int i = 0; i < kEach; ++i) {
      const auto outcome =
          run_child(call_of(path, {"done", "rags", "--piece", "table", "--by", maker}));
      logged += static_cast<int>(acknowledged_in(outcome.output).size());
    }
  };
  int ines = 0;
  int tobias = 0;
  std::thread one(work, "Ines", std::ref(ines));
  std::thread other(work, "Tobias", std::ref(tobias));
  one.join();
  other.join();
  CHECK(ines == kEach);
  CHECK(tobias == kEach);
  std::map<std::string, int> entries;
  const auto log = store.log("table").value();
  for (const LogEntry& entry : log) {
    ++entries[entry.by];
  }
  CHECK(entries == std::map<std::string, int>{{"Ines", kEach}, {"Tobias", kEach}});
  CHECK(integrity_of(path) == "ok");
}

}  // namespace coatwright
