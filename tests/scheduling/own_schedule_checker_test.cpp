#include "own_schedule_checker.h"

#include <catch2/catch.hpp>

using namespace coatwright;

namespace {

/// Doubles the moment: who starts later waits longer.
class Twice : public LagFunction {
 public:
  [[nodiscard]] Tick at(Tick start) const override { return 2 * start; }
};

/// Two activities of 4 on a grain of 2, one after the other or beside each other.
Project two_works() {
  Project project;
  project.grain = 2;
  project.horizon = 40;
  project.start_sets.push_back({{{0, 40}}});
  project.activities = {{"sand", 4, {}, 0}, {"coat", 4, {}, 0}};
  return project;
}

std::vector<std::string> broken(const Project& project, Tick sand, Tick coat) {
  return own::broken_rules(project, {{sand, coat}});
}

bool says(const std::vector<std::string>& sentences, const std::string& part) {
  return sentences.size() == 1 && sentences.front().find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("A schedule that keeps all rules has none broken", "[scheduling]") {
  CHECK(broken(two_works(), 0, 40).empty());
}

TEST_CASE("A missing start, one off the grain and one past the horizon are seen", "[scheduling]") {
  const Project project = two_works();
  CHECK(says(own::broken_rules(project, {{0}}), "1 starts for 2"));
  CHECK(says(broken(project, 1, 4), "off the grain at 1"));
  CHECK(says(broken(project, 0, 42), "outside of the horizon at 42"));
  CHECK(says(broken(project, -2, 4), "outside of the horizon at -2"));
}

TEST_CASE("A start outside of the start set is seen", "[scheduling]") {
  Project project = two_works();
  project.start_sets.push_back({{{4, 8}, {20, 20}}});
  project.activities[1].starts = 1;
  CHECK(broken(project, 0, 8).empty());
  CHECK(broken(project, 0, 20).empty());
  CHECK(says(broken(project, 0, 10), "coat (1) starts outside of its start set at 10"));
}

TEST_CASE("Lags that are missed by one grain are seen", "[scheduling]") {
  Project project = two_works();
  project.min_lags.push_back({0, 1, Lag{6}});
  project.max_lags.push_back({0, 1, Lag{10}});
  CHECK(broken(project, 2, 8).empty());
  CHECK(broken(project, 2, 12).empty());
  CHECK(says(broken(project, 2, 6), "coat (1) starts too early after sand (0) at 6"));
  CHECK(says(broken(project, 2, 14), "coat (1) starts too late after sand (0) at 14"));
}

TEST_CASE("Lags that depend on the start are asked at the start", "[scheduling]") {
  Project project = two_works();
  project.min_lags.push_back({0, 1, Lag{0, std::make_shared<Twice>()}});
  CHECK(broken(project, 8, 16).empty());
  CHECK(says(broken(project, 8, 14), "too early"));
  project.min_lags.clear();
  project.max_lags.push_back({0, 1, Lag{0, std::make_shared<Twice>()}});
  CHECK(says(broken(project, 8, 18), "too late"));
}

TEST_CASE("A resource that is overdrawn is seen, with what takes it", "[scheduling]") {
  Project project = two_works();
  project.resources.push_back({"bench", {{0, 2}}});
  project.activities[0].demands.push_back({0, 1, 1, 3});
  project.activities[1].demands.push_back({0, 2, 0, 4});
  CHECK(broken(project, 0, 4).empty());
  CHECK(says(broken(project, 2, 4), "bench has 2 at 4, and 3 is taken by sand (0), coat (1)"));
}

TEST_CASE("A capacity that falls later is seen where it falls", "[scheduling]") {
  Project project = two_works();
  project.resources.push_back({"people", {{0, 1}, {7, 0}, {20, 1}}});
  project.activities[0].demands.push_back({0, 1, 0, 4});
  CHECK(broken(project, 2, 0).empty());
  CHECK(says(broken(project, 4, 0), "people has 0 at 7"));
  CHECK(broken(project, 20, 0).empty());
}

TEST_CASE("A hold takes its place until the next work, or until its own moment", "[scheduling]") {
  Project project = two_works();
  project.resources.push_back({"rack", {{0, 1}, {10, 0}}});
  project.holds.push_back({0, 1, 0, 4, 1, 0, Lag{}});
  CHECK(broken(project, 0, 10).empty());
  CHECK(says(broken(project, 0, 12), "rack has 0 at 10, and 1 is taken by the hold of sand (0)"));
  CHECK(broken(project, 20, 10).empty());  // it would end before it begins, and takes nothing
  project.holds = {{0, 1, 0, 4, std::nullopt, 0, Lag{8}}};
  CHECK(broken(project, 2, 0).empty());
  CHECK(says(broken(project, 4, 0), "rack has 0 at 10"));
}

TEST_CASE("Stretches of two sides that overlap are seen", "[scheduling]") {
  Project project = two_works();
  project.exclusions.push_back({"dust", {{0, 0, Lag{4}}}, {{1, 2, Lag{10}}}});
  CHECK(broken(project, 4, 6).empty());
  CHECK(broken(project, 16, 6).empty());
  CHECK(broken(project, 6, 4).size() == 1);
  CHECK(says(broken(project, 14, 6), "dust: sand (0) overlaps coat (1)"));
}

TEST_CASE("Lateness is counted from the due moment of each job", "[scheduling]") {
  Project project = two_works();
  project.jobs.push_back({"table", {0, 1}, 10, 3});
  project.jobs.push_back({"chair", {0}, 2, 1});
  const own::Cost cost = own::cost_by_hand(project, {{0, 12}});
  CHECK(cost.lateness == 3 * 6 + 2);
  CHECK(cost.end == 16);
}
